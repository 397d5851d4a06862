# Completions of acrewright for bash; made by `acrewright shell bash`.
_acrewright() {
    local word before words=()
    # Without the marks by which a word of several words is one.
    for word in "${COMP_WORDS[@]:1:COMP_CWORD}"; do
        word=${word#[\"\']}
        word=${word%[\"\']}
        word=${word//\\/}
        # Bash parts NAME=VALUE at the sign.
        if [[ ${#words[@]} -gt 0 && ($word == = || ($word && ${words[-1]} == *=)) ]]; then
            words[-1]+=$word
            before=${words[-1]%%=*}=
        else
            words+=("$word")
            before=
        fi
    done
    mapfile -t COMPREPLY < <(acrewright shell complete -- "${words[@]}" 2>/dev/null)
    COMPREPLY=("${COMPREPLY[@]#"$before"}")
    if [[ -e ${COMPREPLY[0]-} ]]; then
        compopt -o filenames 2>/dev/null
    elif [[ ${COMP_WORDS[COMP_CWORD]} != [\"\']* ]]; then
        local i
        for i in "${!COMPREPLY[@]}"; do
            printf -v "COMPREPLY[i]" %q "${COMPREPLY[i]}"
        done
    fi
    if [[ ${#COMPREPLY[@]} -eq 1 && ${COMPREPLY[0]} == *[/=] ]]; then
        compopt -o nospace 2>/dev/null
    fi
}
complete -F _acrewright acrewright
