//! Strandline.
fn main() {}
