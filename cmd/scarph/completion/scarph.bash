# Completes scarph's words in bash 4 and later. To load it, write in ~/.bashrc:
#     source <(scarph completion bash)
_scarph() {
    local word about
    COMPREPLY=()
    while IFS=$'\t' read -r word about; do
        if [[ $word == :files ]]; then
            compopt -o default
            return
        fi
        if [[ $word == *= ]]; then
            compopt -o nospace
        fi
        printf -v word %q "$word"
        COMPREPLY+=("$word")
    done < <("${COMP_WORDS[0]}" propose -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -F _scarph scarph
