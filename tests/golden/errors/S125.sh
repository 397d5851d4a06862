printf 'firm "Kestrel"\nmoney US "<b>" to $0\n' >ours.firm
acrewright check ours.firm
