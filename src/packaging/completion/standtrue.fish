# Completion of standtrue for fish. Held to the program by tests/help_is_told.py.

set -l bench check ply brace improve variants level parts place prove odds
set -l commands $bench draw model solve tables
set -l none "not __fish_seen_subcommand_from $commands"

complete -c standtrue -f
complete -c standtrue -n $none -a check -d 'What a bench carries, how it sags and sways'
complete -c standtrue -n $none -a ply -d 'How thick the top must be'
complete -c standtrue -n $none -a brace -d 'Whether it needs a brace, and which'
complete -c standtrue -n $none -a improve -d 'The smallest changes that cure what fails'
complete -c standtrue -n $none -a variants -d 'The bench beside the variants of its file'
complete -c standtrue -n $none -a level -d 'How much to turn each foot'
complete -c standtrue -n $none -a parts -d 'Pieces to cut, and what to buy'
complete -c standtrue -n $none -a place -d 'Where on the top a machine may stand'
complete -c standtrue -n $none -a prove -d 'Tests to make, and what their readings teach'
complete -c standtrue -n $none -a odds -d 'How many of a thousand such benches would pass'
complete -c standtrue -n $none -a draw -d 'One picture of the bench, as SVG'
complete -c standtrue -n $none -a model -d 'The frame that stands for a bench'
complete -c standtrue -n $none -a solve -d 'Solve a frame case'
complete -c standtrue -n $none -a tables -d 'The values used, with their sources'
complete -c standtrue -n $none -l version -d 'The version'
complete -c standtrue -l help -d 'The options'

complete -c standtrue -n "__fish_seen_subcommand_from $bench draw model solve" \
  -k -a '(__fish_complete_suffix .yaml)'
complete -c standtrue -n "__fish_seen_subcommand_from $bench" -l json -d 'Write JSON in place of the page'
complete -c standtrue -n "__fish_seen_subcommand_from $bench" -l report -r -k \
  -a '(__fish_complete_suffix .html)' -d 'Also write a sheet to print'
complete -c standtrue -n "__fish_seen_subcommand_from $bench" -l date -x -d 'The date in its title block'
complete -c standtrue -n "__fish_seen_subcommand_from $bench solve tables" -l width -x -d 'Columns of the page'
complete -c standtrue -n '__fish_seen_subcommand_from check' -l detail -d 'Add clauses and working'
complete -c standtrue -n '__fish_seen_subcommand_from check' -l strict -d 'Service checks count too'
complete -c standtrue -n '__fish_seen_subcommand_from check' -l mesh -x -a 'standard fine' -d 'Cells of the sheets'
complete -c standtrue -n '__fish_seen_subcommand_from odds' -l seed -x -d 'Draw other benches'
complete -c standtrue -n '__fish_seen_subcommand_from model' -l bound -x -a 'soft mean stiff' \
  -d 'Stiffness of the joints'
complete -c standtrue -n '__fish_seen_subcommand_from draw; and test (count (commandline -opc)) -ge 3' \
  -a 'shop rod front end plan solid loaded pushed-along pushed-across moments sticks swings sag sway speeds'
complete -c standtrue -n '__fish_seen_subcommand_from tables' -a "sources constant material k_def k_mod
  'bearing factor' combination air 'spacing rule' screw bolt steel foot castor floor joint duty limit load
  machine 'panel family' veneer panel section tolerance 'stock length' 'sheet size' 'table test' timber
  scatter correlation 'visual grade'"
