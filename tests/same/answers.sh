#!/usr/bin/env bash
# answers.sh PROGRAM FOLDER [THREADS]: what PROGRAM says to every line of tests/same/commands, a file each in FOLDER.
set -euo pipefail
program=$1 folder=$2 threads=${3:-2}
cd "$(dirname "$0")/../.."
mkdir -p "$folder"
number=0
while IFS= read -r line; do
    [[ -z $line || $line == \#* ]] && continue
    number=$((number + 1))
    answer=$folder/$(printf '%02d' "$number")
    code=0
    # Names of files stand in one order in every language.
    language=${LC_ALL:-C}
    LC_ALL=C
    eval "words=($line)"
    LC_ALL=$language
    printf 'acrewright %s\n' "$line" >"$answer"
    "$program" "${words[@]}" </dev/null >>"$answer" 2>&1 || code=$?
    printf '\nexit code %d\n' "$code" >>"$answer"
done <tests/same/commands
