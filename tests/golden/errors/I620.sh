printf 'model "Mowing"\ngiven area = 40 ac\ngiven pace = 2 ac/h  swing 3 ac/h .. 1 ac/h\ncost mower : $/h = $90/h over area / pace\nprice "Mowing" per ac of area\n' >swing.rate
acrewright risk swing.rate
