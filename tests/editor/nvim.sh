#!/usr/bin/env bash
# The language server and the files for neovim, in neovim itself without a screen: `nvim.sh PROGRAM`. Leaves with 77, which ctest takes
# as skipped, where there is no neovim.
set -euo pipefail
program=$(realpath "$1")
here=$(dirname "$(realpath "$0")")
command -v nvim >/dev/null || exit 77
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT
cp -r "$here/../../examples" "$here/../../models" "$room"
mkdir "$room/files" "$room/home"
for file in syntax:vim filetype:vim setup:lua; do
    "$program" editor --print "${file%:*}" >"$room/files/${file%:*}.${file#*:}"
done
cd "$room"
HOME=$room/home XDG_STATE_HOME=$room/home XDG_DATA_HOME=$room/home XDG_CACHE_HOME=$room/home ACREWRIGHT=$program \
    timeout 300 nvim --headless -u NONE -i NONE -n -c "lua local ok, why = pcall(dofile, '$here/nvim.lua'); if not ok then print(why); vim.cmd('cquit 1') end" </dev/null
