acrewright pirce meadow.job
