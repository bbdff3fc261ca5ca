//! Help for tests.

use std::io::Read;

/// Writes a file into the folder that `PAPER_OUT` names, to be looked at.
pub(crate) fn show(name: &str, bytes: &[u8]) {
    let folder = std::env::var_os("PAPER_OUT").unwrap();
    std::fs::write(std::path::Path::new(&folder).join(name), bytes).unwrap();
}

/// The rows of a picture, three bytes a pixel.
pub(crate) fn rows(file: &[u8], width: usize) -> Vec<Vec<u8>> {
    let at = file.windows(4).position(|four| four == b"IDAT").unwrap();
    let length = u32::from_be_bytes(file[at - 4..at].try_into().unwrap()) as usize;
    let mut out = Vec::new();
    flate2::read::ZlibDecoder::new(&file[at + 4..at + 4 + length]).read_to_end(&mut out).unwrap();
    out.chunks(width * 3 + 1).map(|row| row[1..].to_vec()).collect()
}
