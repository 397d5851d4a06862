#!/usr/bin/env bash
# The completions in bash, in a terminal of its own, and what the program says to them; the manual pages as man reads them:
# `completions.sh PROGRAM`. What is not installed is passed over, and said.
set -uo pipefail
program=$(realpath "$1")
root=$(realpath "$(dirname "$0")/../..")
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT
mkdir "$room/bin"
ln -s "$program" "$room/bin/acrewright"
cp -r "$root/examples" "$root/models" "$room"
cd "$room" || exit 1
export PATH=$room/bin:$PATH HOME=$room LC_ALL=C
passed=0 failed=0
check() { # what, whether
    if [[ $2 == yes ]]; then passed=$((passed + 1)); else failed=$((failed + 1)) && printf 'failed: %s\n%s\n' "$1" "${3-}"; fi
}
has() { grep -qxF -- "$2" <<<"$1" && echo yes || echo no; }
lacks() { grep -qxF -- "$2" <<<"$1" && echo no || echo yes; }
ask() { acrewright shell complete -- "$@"; }

said=$(ask pr); check 'a command' "$(has "$said" price)" "$said"
check 'no other' "$(lacks "$said" quote)" "$said"
said=$(ask price examples/); check 'a job' "$(has "$said" examples/01-first-price.job)" "$said"
check 'no season where a job is wanted' "$(lacks "$said" examples/2027.season)" "$said"
check 'a folder goes on' "$(has "$said" examples/fields/)" "$said"
said=$(ask check examples/2027); check 'a season to check' "$(has "$said" examples/2027.season)" "$said"
said=$(ask price examples/01-first-price.job --s); check 'an option' "$(has "$said" --set)" "$said"
said=$(ask price examples/01-first-price.job --set de); check 'a given' "$(has "$said" depth=)" "$said"
said=$(ask explain examples/01-first-price.job machine_); check 'a line' "$(has "$said" machine_hours)" "$said"
said=$(ask price examples/03-rows-or-field.job --option ''); check 'an option of the job' "$(has "$said" 'Tree rows, two pulls')" "$said"
said=$(ask words giv); check 'a word' "$(has "$said" given)" "$said"
said=$(ask library fuel_); check 'a formula' "$(has "$said" fuel_by_pamphlet)" "$said"
said=$(ask codes U30); check 'a code' "$(has "$said" U302)" "$said"
said=$(ask price no-such.job --set ''); check 'nothing for a job that is not there' "$([[ -z $said ]] && echo yes || echo no)" "$said"

# A person at a terminal: what is typed, then a tab, then the line is shown and left.
if command -v python3 >/dev/null; then
    said=$(python3 - <<'END'
import os, pty, select, time
pid, fd = pty.fork()
if pid == 0:
    os.execvp('bash', ['bash', '--norc', '--noprofile', '-i'])
def read(seconds):
    text, end = b'', time.time() + seconds
    while time.time() < end and select.select([fd], [], [], 0.2)[0]:
        text += os.read(fd, 65536)
    return text
def wait_for(word, seconds=60):
    text, end = b'', time.time() + seconds
    while word not in text and time.time() < end:
        if select.select([fd], [], [], 0.2)[0]:
            text += os.read(fd, 65536)
    return text
os.write(fd, b"PS1='> '; bind 'set bell-style none'; source <(acrewright shell bash); echo rea''dy\n")
wait_for(b'ready')
os.write(fd, b'acrewright explain examples/01-fi\tmachine_ho\t')
text = wait_for(b'machine_hours')
os.write(fd, b'\x03')
print(text.decode(errors='replace').replace('\r', ''))
os.write(fd, b'exit\n')
END
)
    check 'bash completes a file and a line' "$(grep -q 'examples/01-first-price.job machine_hours' <<<"$said" && echo yes || echo no)" "$said"
else
    echo 'passed over: bash in a terminal needs python3'
fi
acrewright shell bash | bash -n; check 'bash reads its script' "$([[ $? == 0 ]] && echo yes || echo no)"
if command -v zsh >/dev/null; then
    acrewright shell zsh >_acrewright && zsh -n _acrewright; check 'zsh reads its script' "$([[ $? == 0 ]] && echo yes || echo no)"
fi

# Every manual page is one to man, and lexgrog finds its name.
if command -v man >/dev/null && command -v lexgrog >/dev/null; then
    pages=$(acrewright manual)
    check 'a page for each command and file' "$([[ $(wc -l <<<"$pages") -ge 29 ]] && echo yes || echo no)" "$pages"
    for page in $pages; do
        acrewright manual "$page" >"$page"
        said=$(lexgrog "$page" 2>&1)
        check "lexgrog $page" "$(grep -q ": \"${page%.*} - " <<<"$said" && echo yes || echo no)" "$said"
        said=$(man --warnings -l "$page" 2>&1 >/dev/null)
        check "man $page" "$([[ -z $said ]] && echo yes || echo no)" "$said"
    done
    said=$(MANWIDTH=80 man -l acrewright-price.1 2>/dev/null)
    check 'a page shows the options' "$(grep -q -- '--set NAME=VALUE' <<<"$said" && echo yes || echo no)" "$said"
else
    echo 'passed over: manual pages need man-db'
fi
printf '%d passed, %d failed\n' "$passed" "$failed"
[[ $failed -eq 0 ]]
