# Twenty models, each of which uses the next.
for i in $(seq 1 20); do printf 'model "m%d"\nuse "deep%d"\n' $i $((i + 1)) >deep$i.rate; done
printf 'model "last"\n' >deep21.rate
acrewright check deep1.rate
