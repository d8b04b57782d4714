# Completion of standtrue for bash. Held to the program by tests/help_is_told.py.

_standtrue_options() {
  case $1 in
    check) echo --detail --json --strict --mesh --width --report --date --help ;;
    ply | brace | improve | variants | level | parts | place | prove) echo --json --width --report --date --help ;;
    odds) echo --seed --json --width --report --date --help ;;
    solve | tables) echo --width --help ;;
    model) echo --bound --help ;;
    draw) echo --help ;;
  esac
}

# Folders, and files whose names end as wanted.
_standtrue_files() {
  local name
  compopt -o filenames 2>/dev/null
  while IFS= read -r name; do
    case $name in
      *.$2 | *.$3) COMPREPLY+=("$name") ;;
      *) [[ -d $name ]] && COMPREPLY+=("$name") ;;
    esac
  done < <(compgen -f -- "$1")
}

_standtrue_words() {
  local name
  while IFS= read -r name; do
    [[ $name == "$1"* ]] && COMPREPLY+=("${name// /\\ }")
  done
}

_standtrue() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]}
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    local commands="check ply brace improve variants level parts place prove odds draw model solve tables"
    COMPREPLY=($(compgen -W "$commands --help --version" -- "$word"))
    return
  fi
  case $before in
    --mesh) COMPREPLY=($(compgen -W "standard fine" -- "$word")); return ;;
    --bound) COMPREPLY=($(compgen -W "soft mean stiff" -- "$word")); return ;;
    --report) _standtrue_files "$word" html htm; return ;;
    --width | --date | --seed) return ;;
  esac
  if [[ $word == -* ]]; then
    COMPREPLY=($(compgen -W "$(_standtrue_options "$command")" -- "$word"))
  elif [[ $command == tables ]]; then
    _standtrue_words "$word" <<'GROUPS'
sources
constant
material
k_def
k_mod
bearing factor
combination
air
spacing rule
screw
bolt
steel
foot
castor
floor
joint
duty
limit
load
machine
panel family
veneer
panel
section
tolerance
stock length
sheet size
table test
timber
scatter
correlation
visual grade
GROUPS
  elif [[ $command == draw ]] && ((COMP_CWORD == 3)); then
    COMPREPLY=($(compgen -W "shop rod front end plan solid loaded pushed-along pushed-across moments sticks
      swings sag sway speeds" -- "$word"))
  else
    _standtrue_files "$word" yaml yml
  fi
}

complete -F _standtrue standtrue
