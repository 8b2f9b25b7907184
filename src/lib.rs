//! turnwright
