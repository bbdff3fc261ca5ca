//! Help for tests.

/// Writes a file into the folder that `PAPER_OUT` names, to be looked at.
pub(crate) fn show(name: &str, bytes: &[u8]) {
    let folder = std::env::var_os("PAPER_OUT").unwrap();
    std::fs::write(std::path::Path::new(&folder).join(name), bytes).unwrap();
}
