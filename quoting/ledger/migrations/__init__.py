"""The steps from one shape of the ledger to the next; a step is never edited once it is released."""
