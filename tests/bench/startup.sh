#!/usr/bin/env bash
# The sample price as a whole process beside the start-up of the scripting languages of the machine: median of many runs, taken
# in turn so that all see the same machine. Prints the ratios; with --gate the exit code says whether the price takes at most
# three times the smallest.
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${ACREWRIGHT:-build/cli/acrewright}
[[ -x $program ]] || { echo "no program at $program: build it first" >&2; exit 2; }
runs=${RUNS:-200}
names=()
commands=()
add() { names+=("$1"); commands+=("$2"); }
command -v dash >/dev/null && add 'dash -c :' 'dash -c :'
command -v bash >/dev/null && add 'bash -c :' 'bash --norc --noprofile -c :'
command -v perl >/dev/null && add 'perl -e 0' 'perl -e 0'
command -v lua5.4 >/dev/null && add 'lua5.4 -e 0' 'lua5.4 -e return'
add 'acrewright --version' "$program --version"
add 'acrewright price' "$program price examples/01-first-price.job"
for command in "${commands[@]}"; do $command >/dev/null; done

declare -A times
for ((run = 0; run < runs; ++run)); do
    for i in "${!commands[@]}"; do
        begin=${EPOCHREALTIME/./}
        ${commands[i]} >/dev/null
        end=${EPOCHREALTIME/./}
        times[$i]+="$((end - begin))"$'\n'
    done
done
median() { sort -n <<<"$1" | grep . | sed -n "$((runs / 2 + 1))p"; }
smallest=
for i in "${!commands[@]}"; do
    value=$(median "${times[$i]}")
    [[ ${names[i]} == acrewright* ]] || { [[ -n $smallest && $smallest -le $value ]] || smallest=$value; }
    medians[i]=$value
done
for i in "${!commands[@]}"; do
    awk -v name="${names[i]}" -v t="${medians[i]}" -v s="$smallest" 'BEGIN { printf "%-22s %7.3f ms  %5.2f x\n", name, t / 1000, t / s }'
done
price=${medians[-1]}
[[ ${1:-} != --gate ]] || [[ $((price)) -le $((3 * smallest)) ]]
