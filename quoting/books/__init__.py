"""Workbooks out: the customer's quote and the estimator's costing book."""
