acrewright key new wide.key >/dev/null
chmod 644 wide.key
acrewright key show wide.key
