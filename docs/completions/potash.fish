# fish: put this file into a folder of completions.  Made from the tables of src/command/.
complete -c potash -f
complete -c potash -n __fish_use_subcommand -a sheet -d 'the mixing sheet'
complete -c potash -n __fish_use_subcommand -a process -d 'the working sheet of a process, by the clock'
complete -c potash -n __fish_use_subcommand -a label -d 'bottle labels'
complete -c potash -n __fish_use_subcommand -a reckon -d 'one bench sum, with its working'
complete -c potash -n __fish_use_subcommand -a check -d 'what is wrong with formulas, with line and repair'
complete -c potash -n __fish_use_subcommand -a compare -d 'what differs between two formulas: FILE, or FILE#"Title"'
complete -c potash -n __fish_use_subcommand -a tidy -d 'the file in canonical layout'
complete -c potash -n __fish_use_subcommand -a show -d 'the checked form, for programs'
complete -c potash -n __fish_use_subcommand -a book -d 'a whole folder as one printed formulary'
complete -c potash -n __fish_use_subcommand -a shelf -d 'stock left, what can be mixed, what to buy, what expires'
complete -c potash -n __fish_use_subcommand -a cost -d 'what it costs: a batch, a litre, a roll, a sheet'
complete -c potash -n __fish_use_subcommand -a safety -d 'the safety notes: hazards, label, handling'
complete -c potash -n __fish_use_subcommand -a materials -d 'what the library knows'
complete -c potash -n __fish_use_subcommand -a why -d 'a diagnostic explained, with an example and the repair'
complete -c potash -n __fish_use_subcommand -a editor -d 'mistakes underlined as they are typed, for editors (LSP)'
complete -c potash -n '__fish_seen_subcommand_from sheet' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l for -d 'only this use; label: its working solution' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l working -d 'working solution that the tank or tray wants' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l temperature -d 'the bath as it is: the sheet gives the time for it' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l speed -d 'film speed index that a time is wanted for' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l contrast -d 'contrast index that a time is wanted for' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l grade -d 'grade of the paper that a time is wanted for' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l record -d 'in place of the sheet, a batch to paste into a diary'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l record-in -d 'the batch added to this diary' -r -F
complete -c potash -n '__fish_seen_subcommand_from sheet' -l by -d 'who mixed it; the batch'\''s name has the initials' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from sheet' -l using-shelf -d 'take the forms that stand on the shelf'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l graduate -d 'finest step of your graduates (default: the shelf'\''s, or 0.1 mL)' -x
complete -c potash -n '__fish_seen_subcommand_from sheet' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from sheet' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from sheet' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from sheet' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from sheet' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from process' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from process' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from process' -l working -d 'working solution that the tank or tray wants' -x
complete -c potash -n '__fish_seen_subcommand_from process' -l rolls -d 'for so many rolls of film (default for process: one load)' -x
complete -c potash -n '__fish_seen_subcommand_from process' -l sheets -d 'for so many sheets, of this size in inches (default: 8x10)' -x
complete -c potash -n '__fish_seen_subcommand_from process' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from process' -l price-by -d 'of packs with several prices the cheapest (default), the oldest or their average' -x -a 'cheapest oldest average'
complete -c potash -n '__fish_seen_subcommand_from process' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from process' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from process' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from process' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from process' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from process' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from process' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from process' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from process' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from process' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from process' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from process' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from label' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from label' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l for -d 'only this use; label: its working solution' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l working -d 'working solution that the tank or tray wants' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l batch -d 'for this batch, with its days and volume' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l of -d 'stock for what stands in the bottles (default), or working for every working solution' -x -a 'stock working'
complete -c potash -n '__fish_seen_subcommand_from label' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from label' -l size -d 'width and height of a label, mm' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l grid -d 'columns and rows of labels on a sheet' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l margins -d 'left and upper edge of the sheet to the first label, mm' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l pitch -d 'start of one label to the next, mm' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l start -d 'place of the first label, counted row by row' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l copies -d 'so many of each' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from label' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from label' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from label' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from label' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from label' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from label' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from label' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from label' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from label' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from label' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from reckon' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from reckon' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json'
complete -c potash -n '__fish_seen_subcommand_from reckon' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from reckon' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from reckon' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from check' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from check' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from check' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from check' -l without -d 'which formulas hold this material' -x
complete -c potash -n '__fish_seen_subcommand_from check' -l depends -d 'for make and ninja: the files that were read, as what this file depends on' -r -F
complete -c potash -n '__fish_seen_subcommand_from check' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from check' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from check' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from check' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from check' -l today -d 'by the calendar too: what has expired, days still to come'
complete -c potash -n '__fish_seen_subcommand_from check' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from check' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from check' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from check' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json sarif'
complete -c potash -n '__fish_seen_subcommand_from check' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from check' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from check' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from check' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from compare' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from compare' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from compare' -l within -d 'amounts that differ by no more are the same (default: 0.5 %)' -x
complete -c potash -n '__fish_seen_subcommand_from compare' -l known-as -d 'both files are versions of this one' -r -F
complete -c potash -n '__fish_seen_subcommand_from compare' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from compare' -l price-by -d 'of packs with several prices the cheapest (default), the oldest or their average' -x -a 'cheapest oldest average'
complete -c potash -n '__fish_seen_subcommand_from compare' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from compare' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from compare' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from compare' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from compare' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from compare' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from compare' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from compare' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from compare' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from compare' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from tidy' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from tidy' -l in-place -d 'change the files themselves'
complete -c potash -n '__fish_seen_subcommand_from tidy' -l verify -d 'only list the files that are not tidy'
complete -c potash -n '__fish_seen_subcommand_from tidy' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from tidy' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from tidy' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text'
complete -c potash -n '__fish_seen_subcommand_from tidy' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from tidy' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from tidy' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from show' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from show' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from show' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from show' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from show' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from show' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from show' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from show' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from show' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from show' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from show' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from show' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from show' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from show' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from show' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from show' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from book' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from book' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from book' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from book' -l called -d 'what stands on the cover (default: the folder'\''s name)' -x
complete -c potash -n '__fish_seen_subcommand_from book' -l with-safety -d 'each formula'\''s safety notes after its sheet'
complete -c potash -n '__fish_seen_subcommand_from book' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from book' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from book' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from book' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from book' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from book' -l graduate -d 'finest step of your graduates (default: the shelf'\''s, or 0.1 mL)' -x
complete -c potash -n '__fish_seen_subcommand_from book' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from book' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from book' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from book' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from book' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from book' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from book' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from book' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from shelf' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from shelf' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l working -d 'working solution that the tank or tray wants' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l rolls -d 'for so many rolls of film (default for process: one load)' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l sheets -d 'for so many sheets, of this size in inches (default: 8x10)' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l mix -d 'a formula or process for the shopping list' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l ahead -d 'what expires in that time (default: 90 days)' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l counted -d 'the day of the count (default: the one that the shelf states)' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from shelf' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from shelf' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from shelf' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from shelf' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from shelf' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from shelf' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf csv ical'
complete -c potash -n '__fish_seen_subcommand_from shelf' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from shelf' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from shelf' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from shelf' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from shelf' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from cost' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from cost' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l for -d 'only this use; label: its working solution' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l rolls -d 'for so many rolls of film (default for process: one load)' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l sheets -d 'for so many sheets, of this size in inches (default: 8x10)' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from cost' -l price-by -d 'of packs with several prices the cheapest (default), the oldest or their average' -x -a 'cheapest oldest average'
complete -c potash -n '__fish_seen_subcommand_from cost' -l against -d 'what a litre costs that is bought ready made' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from cost' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from cost' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from cost' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from cost' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from cost' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from cost' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from cost' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from cost' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from cost' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from cost' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from safety' -k -a '(__fish_complete_suffix .bath)'
complete -c potash -n '__fish_seen_subcommand_from safety' -l title -d 'only the formula with this title; process: only the process' -x
complete -c potash -n '__fish_seen_subcommand_from safety' -l make -d 'batch size (default: the formula'\''s own)' -x
complete -c potash -n '__fish_seen_subcommand_from safety' -l for -d 'only this use; label: its working solution' -x
complete -c potash -n '__fish_seen_subcommand_from safety' -l shelf -d 'read the shelf from here, where no other file has it' -r -F
complete -c potash -n '__fish_seen_subcommand_from safety' -l strict -d 'warnings count as errors'
complete -c potash -n '__fish_seen_subcommand_from safety' -l all -d 'on a terminal, every warning and error, not 20 of one id'
complete -c potash -n '__fish_seen_subcommand_from safety' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from safety' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from safety' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from safety' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from safety' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from safety' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from safety' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from safety' -l date -d 'the day that is printed (default: today), or none' -x -a 'none'
complete -c potash -n '__fish_seen_subcommand_from safety' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from safety' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from materials' -l like -d 'what may stand in for this material' -x
complete -c potash -n '__fish_seen_subcommand_from materials' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from materials' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json html pdf'
complete -c potash -n '__fish_seen_subcommand_from materials' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from materials' -l paper -d 'paper of PDF: A4 (default) or Letter' -x -a 'A4 Letter'
complete -c potash -n '__fish_seen_subcommand_from materials' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from materials' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from why' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from why' -l as -d 'text (default; of show: json), or another format that the verb gives' -x -a 'text json'
complete -c potash -n '__fish_seen_subcommand_from why' -s o -d 'write there, in one step, only if all is good' -r -F
complete -c potash -n '__fish_seen_subcommand_from why' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from why' -l version -d 'the version'
complete -c potash -n '__fish_seen_subcommand_from editor' -l silence -d 'turn a warning off, by its id or its rule'\''s name' -x
complete -c potash -n '__fish_seen_subcommand_from editor' -l balance -d 'what your scale shows (default: the shelf'\''s, or 0.01 g)' -x
complete -c potash -n '__fish_seen_subcommand_from editor' -l library -d 'the library in this folder in place of the built-in one' -r -F
complete -c potash -n '__fish_seen_subcommand_from editor' -l allow-reads -d 'let read lines leave the folder of the file named'
complete -c potash -n '__fish_seen_subcommand_from editor' -l help -d 'this, and no more'
complete -c potash -n '__fish_seen_subcommand_from editor' -l version -d 'the version'
