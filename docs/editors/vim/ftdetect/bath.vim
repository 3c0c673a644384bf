autocmd BufRead,BufNewFile *.bath setfiletype bath
