//! The integration tests, in one binary: the house rules, the real program end to end,
//! and its numbers beside published ones.

mod tidy;
