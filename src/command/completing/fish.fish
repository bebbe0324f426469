
# Ids and names, those of your folder among them: the program tells them.
complete -c trug -a "(trug completions fish --line (commandline -cp) 2>/dev/null)"
