#!/usr/bin/env bash
# A quote book of a hundred, a thousand and (with --all) ten thousand records: verify, and the next quote, in seconds of a processor;
# and a season of 2,000 shipped jobs beside its limit.
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${ACREWRIGHT:-$PWD/build/cli/acrewright}
folder=$(mktemp -d)
trap 'chmod -R u+w "$folder"; rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1822000000 # after every record of the book
seconds() { # of the processor, the best of RUNS
    local best=9999 took
    for ((run = 0; run < ${RUNS:-3}; ++run)); do
        took=$( { TIMEFORMAT='%U %S'; time "$@" >/dev/null 2>&1; } 2>&1 | awk '{print $1 + $2}')
        best=$(awk -v a="$best" -v b="$took" 'BEGIN { print (b < a) ? b : a }')
    done
    echo "$best"
}
next_quote() {
    "$program" quote examples/01-first-price.job --book "$1" --date 2027-10-01 --accept L843 --wording examples/quote.wording
}
first=$(seconds next_quote "$folder/0")
printf 'the first quote of a book  %8.3f s\n' "$first"
for copies in 6 59 $([[ ${1:-} == --all ]] && echo 589); do
    records=$(python3 tests/bench/many_quotes.py "$folder/$copies" "$copies")
    whole=$(RUNS=1 seconds "$program" verify "$folder/$copies")
    memory=$(python3 -c 'import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)' "$program" verify "$folder/$copies")
    next_quote "$folder/$copies" >/dev/null # the index is there
    quote=$(seconds next_quote "$folder/$copies")
    awk -v n="$records" -v w="$whole" -v m="$memory" -v q="$quote" -v f="$first" 'BEGIN {
        printf "%6d records: verify     %8.2f s, %.1f ms a record, %.0f MB; the next quote %.3f s, %.1f times the first\n",
            n, w, 1000 * w / n, m / 1024, q, q / f }'
done
cp -r models examples "$folder"
rm -f "$folder"/examples/*.job
jobs=(examples/*.job)
for ((i = 0; i < 2000; ++i)); do
    sed -E "s/^date [^ ]+/date 2027-0$((4 + i % 6))-$((10 + i % 18))/" "${jobs[i % ${#jobs[@]}]}" >"$folder/examples/$i.job"
done
season=$(seconds "$program" season "$folder/examples")
awk -v s="$season" 'BEGIN { printf "a season of 2,000 shipped jobs %.2f s  limit 10 s: %.2f of it\n", s, s / 10 }'
