# Completion of hoopwright's commands, options and scene files for bash.
_hoopwright ()
{
  local current previous words cword
  _init_completion -n = || return

  local command= word
  for word in "${words[@]:1:cword-1}"; do
    case $word in
      plan | templates | sheet | needles | lists | supplies | picture | check | correct | follow | match | square | outline)
        command=$word
        break
        ;;
    esac
  done

  case ${words[cword-1]} in
    -o | --output)
      case $command in
        follow) _filedir hoopscene ;;
        square) _filedir png ;;
        needles) _filedir '@(csv|svg)' ;;
        lists) _filedir -d ;;
        picture) _filedir '@(png|svg)' ;;
        *) _filedir pdf ;;
      esac
      return
      ;;
    -p | --paper)
      COMPREPLY=($(compgen -W 'A4 A3 Letter Legal Tabloid' -- "${words[cword]}"))
      return
      ;;
    -u | --unit)
      COMPREPLY=($(compgen -W 'mm in' -- "${words[cword]}"))
      return
      ;;
    --look)
      COMPREPLY=($(compgen -W 'pale outline stitches' -- "${words[cword]}"))
      return
      ;;
    --only)
      COMPREPLY=($(compgen -W 'hoopings threads marks shopping' -- "${words[cword]}"))
      return
      ;;
    --language | --measured | -t | --time | -d | --dpi | --width | --stage | --size | --hooping | -n | --page | -x | --pixels-per-mm)
      return
      ;;
  esac

  if [[ ${words[cword]} == -* ]]; then
    case $command in
      plan) COMPREPLY=($(compgen -W '--why --time --unit --help' -- "${words[cword]}")) ;;
      templates) COMPREPLY=($(compgen -W '--output --paper --part --unit --look --mirrored --nested --layout --hoopings --test-sheet --language --measured --time --help' -- "${words[cword]}")) ;;
      sheet) COMPREPLY=($(compgen -W '--output --paper --part --unit --log --language --measured --time --help' -- "${words[cword]}")) ;;
      needles) COMPREPLY=($(compgen -W '--output --hooping --corrected --time --unit --help' -- "${words[cword]}")) ;;
      lists) COMPREPLY=($(compgen -W '--output --only --time --unit --help' -- "${words[cword]}")) ;;
      supplies) COMPREPLY=($(compgen -W '--part --time --unit --help' -- "${words[cword]}")) ;;
      picture) COMPREPLY=($(compgen -W '--output --width --dpi --plain --stage --size --time --unit --help' -- "${words[cword]}")) ;;
      check) COMPREPLY=($(compgen -W '--time --unit --help' -- "${words[cword]}")) ;;
      correct) COMPREPLY=($(compgen -W '--time --unit --help' -- "${words[cword]}")) ;;
      follow) COMPREPLY=($(compgen -W '--output --time --unit --help' -- "${words[cword]}")) ;;
      match) COMPREPLY=($(compgen -W '--help' -- "${words[cword]}")) ;;
      square) COMPREPLY=($(compgen -W '--output --dpi --help' -- "${words[cword]}")) ;;
      outline) COMPREPLY=($(compgen -W '--page --pixels-per-mm --keep-paper --help' -- "${words[cword]}")) ;;
      *) COMPREPLY=($(compgen -W '--new-scene --open-scene --help --version' -- "${words[cword]}")) ;;
    esac
    return
  fi

  [[ -z $command ]] && COMPREPLY=($(compgen -W 'plan templates sheet needles lists picture check correct follow match square outline' -- "${words[cword]}"))
  local -a found=("${COMPREPLY[@]}")
  COMPREPLY=()
  case $command in
    correct | follow) _filedir '@(hoopscene|json)' ;;
    match) _filedir '@(hoopscene|csv)' ;;
    square) _filedir '@(jpg|jpeg|png|json)' ;;
    outline) _filedir '@(csv|svg|svgz|png|jpg|jpeg|pdf)' ;;
    *) _filedir hoopscene ;;
  esac
  COMPREPLY+=("${found[@]}")
} && complete -F _hoopwright hoopwright
