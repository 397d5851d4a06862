#!/usr/bin/env bash
# Makes the packages of a build and takes them apart: `packages.sh BUILD`. The program must run, with its models, from wherever it lies.
set -uo pipefail
build=$(realpath "$1")
here=$(realpath "$(dirname "$0")")
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT
passed=0 failed=0
check() {
    local what=$1
    shift
    if "$@" >"$room/said" 2>&1; then passed=$((passed + 1)); else failed=$((failed + 1)) && printf 'failed: %s\n' "$what" && cat "$room/said"; fi
}
if ! (cd "$build" && cpack -B "$room/made") >"$room/cpack" 2>&1; then
    cat "$room/cpack"
    exit 1
fi
mkdir -p "$room/tar" "$room/root" "$room/job"
printf 'job "Away"\nmodel "deep-rip"\nseason "none"\n' | sed '/season/d' >"$room/job/away.job"
printf 'model "Away"\nuse "season-prices" as prices\ntwice : $/gal = 2 * prices.diesel\n' >"$room/job/away.rate"

# The tarball runs from any folder, and through a link.
check 'the tarball opens' tar -xzf "$room/made/acrewright.tar.gz" -C "$room/tar"
program=$(find "$room/tar" -path '*/bin/acrewright' | head -n 1)
cd "$room/job" || exit 1
check 'it says its version' "$program" --version
check 'it finds its models' "$program" check away.rate
ln -s "$program" "$room/job/linked"
check 'it finds them through a link' "$room/job/linked" check away.rate
mkdir "$room/elsewhere" && ln -s "$(dirname "$program")" "$room/elsewhere/bin"
check 'and through a link to its folder' "$room/elsewhere/bin/acrewright" check away.rate
check 'it starts a business' "$program" new fresh --year 2027
check 'and prices its job' "$program" price fresh/first.job
if command -v python3 >/dev/null; then
    prefix=$(dirname "$(dirname "$program")")
    check 'who types what the tutorial shows reaches a quote' "$here/typed.py" "$prefix" "$prefix/share/doc/acrewright/examples/first-model.md"
else
    echo 'passed over: the tutorial needs python3'
fi

# So does the program where it was built, and through a link to it; alone, without models, it says what is missing.
check 'a build tree finds its models' "$build/cli/acrewright" check away.rate
ln -s "$build/cli/acrewright" "$room/job/built"
check 'and through a link' "$room/job/built" check away.rate
cp "$program" "$room/job/alone"
check 'alone it says what is missing' grep -q 'season-prices' <("$room/job/alone" check away.rate 2>&1)
check 'alone it has no models' bash -c "! '$room/job/alone' check away.rate"

# The Debian package holds what belongs where it belongs, installs into a bare root, and is gone when it is removed.
if command -v dpkg-deb >/dev/null; then
    deb=$room/made/acrewright.deb
    check 'the package opens' dpkg-deb -x "$deb" "$room/root"
    for file in bin/acrewright share/acrewright/models/deep-rip.rate share/man/man1/acrewright-price.1 share/man/man5/acrewright-rate.5 \
        share/bash-completion/completions/acrewright share/zsh/vendor-completions/_acrewright share/vim/vimfiles/syntax/acrewright.vim \
        share/nvim/site/plugin/acrewright.lua share/doc/acrewright/examples/01-first-price.job; do
        check "$file" test -s "$room/root/usr/$file"
    done
    check 'no library and no header' test ! -e "$room/root/usr/include"
    check 'it runs' "$room/root/usr/bin/acrewright" check away.rate
    check 'it says what it needs' grep -q 'libc6' <(dpkg-deb -f "$deb" Depends)
    if [[ $(id -u) -eq 0 ]]; then
        mkdir -p "$room/bare/var/lib/dpkg/updates" "$room/bare/var/lib/dpkg/info"
        touch "$room/bare/var/lib/dpkg/status"
        check 'it installs' dpkg --root="$room/bare" --force-depends --force-script-chrootless -i "$deb"
        check 'it is there' "$room/bare/usr/bin/acrewright" --version
        check 'it is removed' dpkg --root="$room/bare" --force-depends --force-script-chrootless --purge acrewright
        left=$(find "$room/bare" -path "$room/bare/var/lib/dpkg" -prune -o -type f -print)
        check "nothing is left: $left" test -z "$left"
    fi
else
    echo 'passed over: no dpkg-deb'
fi
printf '%d passed, %d failed\n' "$passed" "$failed"
[[ $failed -eq 0 ]]
