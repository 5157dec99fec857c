#!/bin/sh
# Reviews a collection in any CI: what stands in its known-findings.txt is known, and only new trouble fails.
# usage: review.sh [MASHWRIGHT [REPORTS [COLLECTION [TRUSTED]]]]
# COLLECTION is a path from the top of the repository, TRUSTED a checkout of the branch that a change is for.
set -eu
mashwright=${1:-mashwright}
reports=${2:-$(mktemp -d)}
collection=${3:-.}
trusted=${4:-}
mkdir -p "$reports"
rm -f "$reports/review.sarif" "$reports/review.xml" "$reports/review.md"
set -- --format text --format sarif --output "$reports/review.sarif" \
    --format junit --output "$reports/review.xml" --format markdown --output "$reports/review.md"
if [ -n "$trusted" ]; then
    set -- "$@" --trusted "$trusted"
fi
if [ -f "$collection/known-findings.txt" ] || [ -f "${trusted:-.}/$collection/known-findings.txt" ]; then
    set -- "$@" --baseline "$collection/known-findings.txt"
fi
echo "the reports go to $reports" >&2
exec "$mashwright" review "$collection" "$@"
