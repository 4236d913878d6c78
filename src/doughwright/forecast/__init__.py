"""Recipe x kitchen: what a dough does (``days``) and what its water has to be (``water``)."""
