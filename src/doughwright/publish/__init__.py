"""Results to words, pictures and paper. No disk, no network."""
