
# Ids and names, those of your folder among them: the program tells them.
_trug_words() {
    _trug "$@"
    local word told line="${COMP_LINE:0:COMP_POINT}"
    while IFS= read -r told; do
        # Bash takes what follows = for a word of its own.
        if [[ "$COMP_WORDBREAKS" == *=* && "$2" != *=* && "$told" == *=?* ]]; then
            word="${line##*[[:space:]]}"
            [[ "$word" == *=* ]] && told="${told#"${word%=*}="}"
        fi
        case "$2" in
            \"* | \'*) COMPREPLY+=("$told") ;;
            *) COMPREPLY+=("$(printf '%q' "$told")") ;;
        esac
    done < <(trug completions bash --line "$line" 2>/dev/null)
    [[ "${COMPREPLY[*]}" == *= ]] && compopt -o nospace 2>/dev/null
    return 0
}
complete -o bashdefault -o default -F _trug_words trug
