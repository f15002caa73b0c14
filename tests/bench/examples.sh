#!/bin/sh
# Milliseconds (the best of seven whole runs), pages and bytes of each example job: sh tests/bench/examples.sh PROGRAM
set -eu
fettle=$1
root=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
printf '%-34s %6s %6s %8s\n' job ms pages bytes
for job in "$root"/jobs/*.yaml; do
    best=
    for i in 1 2 3 4 5 6 7; do
        before=$(date +%s%N)
        line=$("$fettle" -o "$work" "$job" 2>/dev/null) || [ $? -eq 1 ]
        took=$((($(date +%s%N) - before) / 100000))
        if [ -z "$best" ] || [ "$took" -lt "$best" ]; then best=$took; fi
    done
    file=$(printf '%s' "$line" | sed 's/.*; \(.*\.pdf\), .*/\1/')
    pages=$(printf '%s' "$line" | sed 's/.*, \([0-9]*\) pages*$/\1/')
    printf '%-34s %4d.%d %6s %8d\n' "$(basename "$job")" $((best / 10)) $((best % 10)) "$pages" "$(wc -c <"$work/$file")"
done
