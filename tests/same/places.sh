#!/usr/bin/env bash
# places.sh PROGRAM: the demo has the same answers with any number of threads, in any language and any time zone.
set -euo pipefail
program=$1
here=$(cd "$(dirname "$0")" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
# A language that writes 1.234,5: where it leaks in, every number breaks.
localedef --no-archive -i de_DE -f UTF-8 "$scratch/de_DE.UTF-8" >/dev/null 2>&1 || true
[[ $(LOCPATH=$scratch LC_ALL=de_DE.UTF-8 locale decimal_point 2>/dev/null) == ',' ]] ||
    { echo "no language with a decimal comma could be made; is the package locales installed?" >&2; exit 1; }

env -i PATH="$PATH" LC_ALL=C TZ=UTC "$here/answers.sh" "$program" "$scratch/plain" 1
if grep -L '^exit code 0$' "$scratch"/plain/* | grep .; then
    echo "these have no answer at all:" && head -n 3 $(grep -L '^exit code 0$' "$scratch"/plain/*) && exit 1
fi
others=0
there() { # NAME THREADS SETTINGS...
    local name=$1 threads=$2
    shift 2
    env -i PATH="$PATH" "$@" "$here/answers.sh" "$program" "$scratch/$name" "$threads"
    diff -r "$scratch/plain" "$scratch/$name" >"$scratch/difference" ||
        { echo "another answer with $threads threads and $*:" >&2; head -n 20 "$scratch/difference" >&2; exit 1; }
    others=$((others + 1))
}
there threads 2 LC_ALL=C TZ=UTC
there east 5 LOCPATH="$scratch" LC_ALL=de_DE.UTF-8 TZ=Pacific/Kiritimati
there west 1 LC_ALL=C.UTF-8 TZ=America/Los_Angeles
echo "$(find "$scratch/plain" -type f | wc -l) answers are the same in $((others + 1)) places"
