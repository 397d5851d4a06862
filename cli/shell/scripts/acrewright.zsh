#compdef acrewright
# Completions of acrewright for zsh; made by `acrewright shell zsh`.
_acrewright() {
    local -a found whole open
    local one
    found=("${(@f)$(acrewright shell complete -- "${(@Q)words[2,CURRENT-1]}" "${(Q)PREFIX}" 2>/dev/null)}")
    for one in $found; do
        if [[ $one == *[/=] ]]; then open+=($one); else whole+=($one); fi
    done
    compadd -a whole
    compadd -S '' -a open
}
_acrewright "$@"
