//! Which voltage stands at every point and which current flows in every run?
