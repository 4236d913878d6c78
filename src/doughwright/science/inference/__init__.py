"""Inference: what readings say of parameters, whether the sampling has settled, what a reading would buy."""
