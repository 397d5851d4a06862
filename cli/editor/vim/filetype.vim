" Made by `acrewright editor --print filetype`.
autocmd BufRead,BufNewFile *.rate,*.season,*.job setfiletype acrewright
autocmd FileType acrewright setlocal commentstring=#\ %s shiftwidth=2 expandtab
