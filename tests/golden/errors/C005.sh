acrewright price "$(printf '%020000d' 0)"
