acrewright check notes.txt
