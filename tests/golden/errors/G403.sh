# Each function calls the one below it twice: two to the power of thirty operations.
{ printf 'model "m"\ndefine f0 (a : 1) : 1 = sqrt(a + 1)\n'
  for i in $(seq 1 30); do printf 'define f%d (a : 1) : 1 = f%d(sqrt(a)) + f%d(a + 1)\n' $i $((i - 1)) $((i - 1)); done
  printf 'given x = 3\ntall : 1 = f30(x)\n'; } >tower.rate
acrewright check tower.rate
