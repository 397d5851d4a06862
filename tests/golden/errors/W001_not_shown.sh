printf 'model "Mowing"\ngiven area = 4 ac  "acres"\ngiven pace = 2 ac/h  "pace"\nshow area\ncost mower : $/h = $38/h over area / pace\nprice "Mowing" per ac of area\n' >meadow.rate
printf 'We mow {area} at {pace}.\n' >firm.wording
acrewright quote meadow.rate --draft --date 2027-03-14 --wording firm.wording
