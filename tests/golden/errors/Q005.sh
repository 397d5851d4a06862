printf 'model "Mowing"\ngiven area = 40 ac\ncost mower : $/ac = $9/ac over area\nprice "Mowing" per ac of area\n' >still.rate
acrewright risk still.rate
