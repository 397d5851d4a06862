# Completions of acrewright for bash; made by `acrewright shell bash`.
_acrewright() {
    local IFS=$'\n'
    COMPREPLY=($(acrewright shell complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
    if [[ -e ${COMPREPLY[0]-} ]]; then
        compopt -o filenames 2>/dev/null
    fi
    if [[ ${#COMPREPLY[@]} -eq 1 && ${COMPREPLY[0]} == *[/=] ]]; then
        compopt -o nospace 2>/dev/null
    fi
}
complete -F _acrewright acrewright
