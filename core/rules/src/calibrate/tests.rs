//! Corner cases of calibration.
