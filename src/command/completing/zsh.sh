
# Ids and names, those of your folder among them: the program tells them.
_trug_words() {
    local -a told
    told=("${(@f)$(trug completions zsh --line "$LBUFFER" 2>/dev/null)}")
    told=("${(@)told:#}")
    (( $#told )) && compadd -- "${told[@]}"
    _trug "$@"
}
if [ "$funcstack[1]" != "_trug" ]; then
    compdef _trug_words trug
fi
