/** The shells that can be served. */
export const shells = ['bash', 'zsh', 'fish', 'powershell'] as const;
export type ShellName = (typeof shells)[number];

// Bash 3.2, which some systems still have, has no compopt, and before 4.4 it knows no nosort; only the finish is lost.
const bash = `# Completion of cornerwise in bash.
_cornerwise() {
  local line how=
  COMPREPLY=()
  {
    IFS= read -r how
    while IFS= read -r line; do COMPREPLY+=("$line"); done
  } < <(command cornerwise complete bash -- "\${COMP_LINE:0:COMP_POINT}" "$COMP_WORDBREAKS" 2>/dev/null)
  case $how in
    nospace) compopt -o nospace; compopt -o nosort ;;
    words) compopt -o nosort ;;
    files) compopt -o filenames; compopt -o nosort ;;
    folders) compopt -o dirnames ;;
    *) compopt -o default ;;
  esac 2>/dev/null
  return 0
}
complete -F _cornerwise cornerwise
`;

const zsh = `#compdef cornerwise
# Completion of cornerwise in zsh, autoloaded from a folder of fpath or sourced.
_cornerwise() {
  local line value
  local -a closed open
  for line in "\${(@f)$(command cornerwise complete zsh -- "\${(@Q)words[1,CURRENT-1]}" "\${(Q)PREFIX}" 2>/dev/null)}"; do
    case $line in
      '') ;;
      :files) _files -g '*.(yaml|yml)(-.)'; return ;;
      :folders) _files -/; return ;;
      *)
        value=\${\${\${line%%$'\\t'*}//\\\\/\\\\\\\\}//:/\\\\:}
        line=\${line#*$'\\t'}
        if [[ $value == *= ]]; then open+=("$value\${line:+:$line}"); else closed+=("$value\${line:+:$line}"); fi
        ;;
    esac
  done
  _describe -V word open -S '' -- closed
}
if [[ \${funcstack[1]} == _cornerwise ]]; then
  _cornerwise "$@"
else
  (( \${+functions[compdef]} )) || { autoload -Uz compinit && compinit -i }
  compdef _cornerwise cornerwise
fi
`;

const fish = `# Completion of cornerwise in fish.
function __cornerwise_complete
    set -l typed (commandline -ct)
    set -l lines (command cornerwise complete fish -- (commandline -opc) (string unescape -- "$typed"; or echo -- "$typed") 2>/dev/null)
    switch "$lines[1]"
        case :files
            set -l files (__fish_complete_suffix .yaml)
            string match -r -- '.*\\.ya?ml$' $files
            string match -rv -- '\\.ya?ml$' $files
        case :folders
            __fish_complete_directories "$typed" ''
        case '*'
            printf '%s\\n' $lines
    end
end
complete -c cornerwise -k -f -a '(__cornerwise_complete)'
`;

// Old versions drop empty arguments, so every word goes with a sign before it.
const powershell = `# Completion of cornerwise in PowerShell.
Register-ArgumentCompleter -Native -CommandName cornerwise -ScriptBlock {
    param($wordToComplete, $commandAst, $cursorPosition)
    $words = @($commandAst.CommandElements | Where-Object { $_.Extent.EndOffset -lt $cursorPosition } | ForEach-Object {
        if ($_ -is [System.Management.Automation.Language.StringConstantExpressionAst]) { '=' + $_.Value } else { '=' + $_.Extent.Text }
    })
    $typed = '=' + $wordToComplete.Trim([char[]]@(34, 39))
    cornerwise complete powershell @words $typed 2>$null | ForEach-Object {
        $part = $_ -split "\`t", 3
        if ($part.Count -eq 3) {
            [System.Management.Automation.CompletionResult]::new($part[0], $part[1], 'ParameterValue', $part[2])
        }
    }
}
`;

/** A script a shell, each no more than a call of the hidden command and what its shell does with the answer. */
export const scripts: Readonly<Record<ShellName, string>> = { bash, zsh, fish, powershell };
