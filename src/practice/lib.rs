//! Practice: exercises on a chart, marking that names the mistake, and a memory for what still goes wrong.
//!
//! A chart and a seed come in and questions go out; an answer comes in and a mark goes out. The crate is pure: it reads no
//! file, no clock and no environment.
