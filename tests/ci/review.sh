#!/bin/sh
# Reviews a collection in any CI: what stands in its known-findings.txt is known, and only new trouble fails.
# usage: review.sh [MASHWRIGHT [REPORTS [COLLECTION]]]
set -eu
mashwright=${1:-mashwright}
reports=${2:-reports}
collection=${3:-.}
mkdir -p "$reports"
set -- --format text --format sarif --output "$reports/review.sarif" \
    --format junit --output "$reports/review.xml" --format markdown --output "$reports/review.md"
if [ -f "$collection/known-findings.txt" ]; then
    set -- "$@" --baseline "$collection/known-findings.txt"
fi
exec "$mashwright" review "$collection" "$@"
