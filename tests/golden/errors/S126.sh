mkdir s126 && cd s126
printf 'season "2027"\nclosed sunday\nclosed monday\nclosed tuesday\nclosed wednesday\nclosed thursday\nclosed friday\nclosed saturday\n' >2027.season
acrewright check 2027.season
