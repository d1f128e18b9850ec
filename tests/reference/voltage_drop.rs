//! Voltage drop along a path, against published examples.
