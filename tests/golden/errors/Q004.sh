{
    printf 'model "Large"\n'
    i=0
    while [ $i -lt 900 ]; do
        printf 'given a%d = %d.5  "a"\nl%d : 1 = exp(a%d * a0 / 1000) * exp(a0 / 1000)\n' $i $i $i $i
        i=$((i + 1))
    done
    printf 'total : 1 = l0'
    i=1
    while [ $i -lt 900 ]; do
        printf ' + l%d' $i
        i=$((i + 1))
    done
    printf '\n'
} >large.rate
acrewright grid large.rate --csv --of total --along 'a0=0..1 by 0.001' --along 'a1=0..1 by 0.001'
