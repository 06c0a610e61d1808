# Completes scarph's words in fish. To load it, write in ~/.config/fish/config.fish:
#     scarph completion fish | source
function __scarph_propose
    set -l words (commandline -opc) (commandline -ct)
    for line in (scarph propose -- $words[2..] 2>/dev/null)
        if string match -q ':files*' -- $line
            __fish_complete_path (commandline -ct)
        else
            echo $line
        end
    end
end
complete -c scarph -f -a '(__scarph_propose)'
