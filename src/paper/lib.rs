//! What leaves Strandline: pages drawn and set, and files that other tools read.
//!
//! A plan comes in and bytes go out. The crate is pure: it reads no file, no clock and no environment.
