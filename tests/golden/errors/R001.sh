acrewright book no-such-book
