// Nothing but a place for the headers that all test programs share, read once.
#include <doctest/doctest.h>
