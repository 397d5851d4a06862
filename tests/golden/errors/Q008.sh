printf 'model "Mowing"\ngiven area = 40 ac\ngiven a = 2 ac/h  swing 1 ac/h .. 3 ac/h\ngiven b = 2 ac/h  swing 1 ac/h .. 3 ac/h\ngiven c = 2 ac/h  swing 1 ac/h .. 3 ac/h\ncorrelate a, b 90 %%\ncorrelate b, c 90 %%\ncorrelate a, c -90 %%\ncost mower : $/h = $90/h over area / (a + b + c)\nprice "Mowing" per ac of area\n' >contrary.rate
acrewright risk contrary.rate
