#!/bin/sh
# Reviews a collection in any CI: findings that are in the baseline are known, only new trouble fails.
# usage: review.sh [MASHWRIGHT [REPORTS [COLLECTION]]]
set -eu
mashwright=${1:-mashwright}
reports=${2:-reports}
collection=${3:-.}
baseline=$reports/known-findings.txt
mkdir -p "$reports"
if [ ! -f "$baseline" ]; then
    # the first time: what is found today is written down; commit this file
    "$mashwright" review "$collection" --baseline "$baseline" --write-baseline --quiet >/dev/null
fi
exec "$mashwright" review "$collection" --baseline "$baseline" \
    --format text --format sarif --output "$reports/review.sarif" \
    --format junit --output "$reports/review.xml" --format markdown --output "$reports/review.md"
