#!/usr/bin/env bash
# The completions in bash and zsh, in a terminal of their own, and what the program says to them; the manual pages as man reads them:
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

# A person at a terminal: the shell is set up, then what is typed, with tabs, and what the line then shows. `typed SHELL SETUP TYPED WAIT`.
typed() {
    python3 - "$@" <<'END'
import fcntl, os, pty, select, struct, sys, termios, time
shell, setup, keys, wanted = sys.argv[1:]
pid, fd = pty.fork()
if pid == 0:
    os.environ['TERM'] = 'dumb'
    os.execvp(shell, [shell, *{'bash': ['--norc', '--noprofile', '-i'], 'zsh': ['-f', '-i']}[shell]])
fcntl.ioctl(fd, termios.TIOCSWINSZ, struct.pack('HHHH', 40, 400, 0, 0))
def wait_for(word, seconds=60):
    text, end = b'', time.time() + seconds
    while word not in text and time.time() < end:
        if select.select([fd], [], [], 0.2)[0]:
            try:
                text += os.read(fd, 65536)
            except OSError:
                break
    return text
os.write(fd, setup.encode() + b"; PS1='> '; echo rea''dy\n")
wait_for(b'ready')
text = b''
for part in keys.split('|'):  # what came is awaited before more is typed
    typed, _, shown = part.partition('=>')
    os.write(fd, typed.encode() + b'\t')
    text = wait_for((shown or wanted).encode())
os.write(fd, b'\x03')
print(text.decode(errors='replace').replace('\r', ''))
os.write(fd, b'exit\n')
END
}
shows() { grep -q -- "$2" <<<"$1" && echo yes || echo no; }
tries() { # shell, setup
    said=$(typed "$1" "$2" 'acrewright explain examples/01-fi=>first-price.job|machine_ho=>machine_hours' machine_hours)
    check "$1 completes a file and a line" "$(shows "$said" machine_hours)" "$said"
    said=$(typed "$1" "$2" 'acrewright sens=>sensitivity' sensitivity)
    check "$1 completes a command" "$(shows "$said" sensitivity)" "$said"
    said=$(typed "$1" "$2" 'acrewright price examples/01-first-price.job --set dep=>depth=' depth=)
    check "$1 completes a given, ready for its value" "$(shows "$said" 'depth=')" "$said"
    said=$(typed "$1" "$2" 'acrewright price examples/01-first-price.job --set method=c=>crossed' crossed)
    check "$1 completes the option of a choice" "$(shows "$said" 'method=crossed')" "$said"
    said=$(typed "$1" "$2" 'acrewright price examples/03-rows-or-field.job --option Tree\ rows,\ tw=>pulls' pulls)
    check "$1 completes an option of several words" "$(shows "$said" 'two\\ pulls')" "$said"
    said=$(typed "$1" "$2" "acrewright price examples/03-rows-or-field.job --option 'Tree rows, tw=>pulls'" "pulls'")
    check "$1 completes an option in quotes" "$(shows "$said" "'Tree rows, two pulls'")" "$said"
    said=$(typed "$1" "$2" "acrewright price examples/03-rows-or-field.job --option 'Tree rows, two pulls' --set dep=>depth=" depth=)
    check "$1 completes a given after an option in quotes" "$(shows "$said" 'depth=')" "$said"
}
if command -v python3 >/dev/null; then
    tries bash "bind 'set bell-style none'; source <(acrewright shell bash)"
    if command -v zsh >/dev/null; then
        mkdir zfunc && acrewright shell zsh >zfunc/_acrewright
        tries zsh 'unsetopt beep; fpath=($PWD/zfunc $fpath); autoload -Uz compinit; compinit -u -D'
    else
        echo 'passed over: zsh is not installed'
    fi
else
    echo 'passed over: a shell in a terminal needs python3'
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
