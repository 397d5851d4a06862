#!/usr/bin/env bash
# Writes examples/quote-book anew: a season of the demo firm, each record at its own time. Quotes are issued once: do this only when the
# format of records changes, or when the demo's jobs have moved so far that the book no longer shows them.
#   write_example.sh PROGRAM
# The key is made from a public text, so that the book comes out the same: nobody may do that with a key that counts.
set -euo pipefail
program=$(realpath "$1")
cd "$(dirname "$0")/../.."
book=examples/quote-book
rm -rf "$book"
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT
python3 - >"$room/demo.key" <<'PYTHON'
import hashlib, sys
sys.path.insert(0, 'tests/book')
import ed25519
seed = hashlib.sha256(b'the demo firm: a key that is no secret').digest()
print(seed.hex() + ed25519.open_key(seed))
PYTHON
chmod 600 "$room/demo.key"
"$program" key show "$room/demo.key" >examples/quote-book.key

# on DAY: the clock stands at three in the afternoon (UTC) of that day
on() { SOURCE_DATE_EPOCH=$(date -u -d "$1 15:00" +%s) "$program" "${@:2}" --date "$1" --book "$book" --key "$room/demo.key" >/dev/null; }
offer() { on "$1" quote "examples/$2.job" --by "$3" --wording examples/quote.wording "${@:4}"; }

on 2027-05-03 key admit "$(cat examples/quote-book.key)" --name "Tamarack Flat, the office"
offer 2027-05-10 01-first-price 'Dell Okafor'
on 2027-05-14 mark 2027-001 accepted --note 'signed at the yard'
offer 2027-05-24 04-crossed 'Dell Okafor' --option Crossed
offer 2027-06-01 03-rows-or-field 'Ines Maroto' --option 'Tree rows, two pulls'
on 2027-06-05 mark 2027-003 accepted
offer 2027-06-08 07-three-fields 'Dell Okafor' --by-block
offer 2027-06-15 06-far-away 'Dell Okafor'
offer 2027-06-22 16-from-a-map 'Ines Maroto'
offer 2027-06-29 08-hard-pan 'Dell Okafor'
on 2027-06-30 mark 2027-005 'turned down' --note 'took the other offer'
offer 2027-07-02 04-crossed 'Dell Okafor' --replaces 2027-002
on 2027-07-02 mark 2027-001 finished --log examples/logs/2027-001.csv
on 2027-07-05 mark 2027-008 accepted
on 2027-07-09 mark 2027-003 finished --log examples/logs/2027-003.csv
offer 2027-07-19 14-old-block-to-rows 'Ines Maroto'
on 2027-07-30 mark 2027-007 lapsed
offer 2027-08-02 05-two-crawlers 'Dell Okafor'
"$program" verify "$book" --strict --key examples/quote-book.key
