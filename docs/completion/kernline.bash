# kernline.bash - completion of kernline's command line for bash.
# Installed where bash-completion finds it; or: source kernline.bash
# tests/unit/test_completion.c holds the lists against the program's own tables.
# SPDX-License-Identifier: MIT

_kernline_commands="run table plot report sensitivity validate words format"
_kernline_tables="steps nodes actions ends stresses deflections camber grades history reactions posts tendons stressing \
losses loss_estimates tendon_loads checks expectations sections audit"
_kernline_pictures="frame loads frame_moment frame_shear frame_axial deflected posts stages history envelope moment \
shear axial stresses deflection camber grades sections section_stress tendons tendon_force strength creep shrinkage"
_kernline_sensitivities="checks elongations camber"
_kernline_options_run="--json --help --version"
_kernline_options_table="--stage --steps --case --combination --day --cause --by-cause --member --every --at --csv \
--json --help --version"
_kernline_options_plot="--stage --steps --case --combination --cause --by-cause --member --tendon --at -o --help --version"
_kernline_options_report="-o --paper --help --version"
_kernline_options_sensitivity="--csv --json --help --version"
_kernline_options_validate="--help --version"
_kernline_options_words="--help --version"
_kernline_options_format="--write --help --version"
_kernline_causes="weight prestress creep shrinkage relaxation losses temperature movement"

# Names that a word declares in the model on the line: `stage cap_cast "…"` gives cap_cast.
_kernline_names() { # WORD FILE
    [ -r "$2" ] && sed -n "s/^[[:space:]]*$1[[:space:]][[:space:]]*\([A-Za-z_][A-Za-z0-9_]*\).*/\1/p" "$2"
}

_kernline_value() { # OPTION FILE: what may follow an option that takes a value
    case $1 in
    --stage) _kernline_names stage "$2" ;;
    --case) _kernline_names load "$2" ;;
    --combination) _kernline_names combination "$2" ;;
    --member) _kernline_names member "$2" ;;
    --tendon) _kernline_names tendon "$2" ;;
    --paper) echo "letter a4" ;;
    --cause) echo "$_kernline_causes"; _kernline_names load "$2" ;;
    esac
}

_kernline() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]}
    local i operands=0 model=
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W "$_kernline_commands --help --version" -- "$word")
        return
    fi
    for ((i = 2; i < COMP_CWORD; i++)); do
        case ${COMP_WORDS[i]} in
        --stage | --case | --combination | --day | --cause | --member | --tendon | --every | --at | -o | --paper) i=$((i + 1)) ;;
        --*) ;;
        *)
            operands=$((operands + 1))
            [ -n "$model" ] || model=${COMP_WORDS[i]}
            ;;
        esac
    done
    case $before in
    --stage | --case | --combination | --cause | --member | --tendon | --paper)
        mapfile -t COMPREPLY < <(compgen -W "$(_kernline_value "$before" "$model")" -- "$word")
        return
        ;;
    --every | --at | --day) return ;;
    esac
    if [[ $word == -* ]]; then
        local list=_kernline_options_$command
        mapfile -t COMPREPLY < <(compgen -W "${!list}" -- "$word")
    elif [ "$command" = table ] && [ "$operands" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W "$_kernline_tables" -- "$word")
    elif [ "$command" = plot ] && [ "$operands" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W "$_kernline_pictures" -- "$word")
    elif [ "$command" = sensitivity ] && [ "$operands" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W "$_kernline_sensitivities" -- "$word")
    elif [ "$command" != words ] && [ "$operands" -eq 0 ]; then
        compopt -o filenames 2>/dev/null
        mapfile -t COMPREPLY < <(compgen -f -X '!*.kline' -- "$word"; compgen -d -- "$word")
    fi
}
complete -F _kernline kernline
