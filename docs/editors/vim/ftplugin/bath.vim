" Formulas of the bath notation: comments, folding, and in Neovim the language server.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal commentstring=#\ %s comments=:# shiftwidth=4 expandtab
let b:undo_ftplugin = 'setlocal commentstring< comments< shiftwidth< expandtab<'

if has('nvim') && executable('potash') && !exists('g:bath_without_server')
  lua require('bath').start()
endif
