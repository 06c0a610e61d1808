#compdef scarph
# Completes scarph's words in zsh. To load it, write in ~/.zshrc, after compinit:
#     source <(scarph completion zsh)
_scarph() {
    local line
    local -a told
    local -a unended
    for line in "${(@f)$(scarph propose -- "${(@Q)words[2,CURRENT]}" 2>/dev/null)}"; do
        case $line in
            '') ;;
            :files*) _files; return ;;
            *=$'\t'*) unended+=("${line%%$'\t'*}") ;;
            *) told+=("${${line%%$'\t'*}//:/\\:}:${line#*$'\t'}") ;;
        esac
    done
    if (( $#unended )); then
        compadd -S '' -a unended
    fi
    if (( $#told )); then
        _describe -V scarph told
    fi
}
compdef _scarph scarph
