//! The file of a picture: Portable Network Graphics (ISO/IEC 15948), eight bits of red, green and blue.

use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use tiny_skia::Pixmap;

/// Dots per metre of one dot per inch.
const PER_METRE: f64 = 1.0 / 0.0254;

/// The picture as a file.
pub(super) fn write(pixels: &Pixmap, dots_per_inch: f64) -> Vec<u8> {
    let (width, height) = (pixels.width(), pixels.height());
    let mut out = b"\x89PNG\r\n\x1a\n".to_vec();
    let mut header = [width.to_be_bytes(), height.to_be_bytes()].concat();
    // Eight bits a part, red, green and blue, the one packing, the one filtering, no interlacing.
    header.extend([8, 2, 0, 0, 0]);
    chunk(&mut out, *b"IHDR", &header);
    let dots = (dots_per_inch * PER_METRE).round() as u32;
    let mut size = [dots.to_be_bytes(), dots.to_be_bytes()].concat();
    size.push(1);
    chunk(&mut out, *b"pHYs", &size);
    chunk(&mut out, *b"IDAT", &packed(pixels));
    chunk(&mut out, *b"IEND", &[]);
    out
}

/// The rows, each with the byte that says that it is unfiltered: flat areas pack as well so. Into
/// memory packing cannot fail.
fn packed(pixels: &Pixmap) -> Vec<u8> {
    let mut packer = ZlibEncoder::new(Vec::new(), Compression::new(6));
    let across = pixels.width() as usize * 4;
    let mut row = Vec::with_capacity(across);
    for from in pixels.data().chunks_exact(across) {
        row.clear();
        row.push(0);
        // Every pixel is opaque, so that nothing is to be divided out.
        row.extend(from.chunks_exact(4).flat_map(|pixel| pixel.iter().copied().take(3)));
        if packer.write_all(&row).is_err() {
            break;
        }
    }
    packer.finish().unwrap_or_default()
}

fn chunk(out: &mut Vec<u8>, name: [u8; 4], data: &[u8]) {
    // No picture that can be made packs into four thousand million bytes.
    out.extend((data.len() as u32).to_be_bytes());
    let start = out.len();
    out.extend(name);
    out.extend(data);
    let sum = crc32fast::hash(&out[start..]);
    out.extend(sum.to_be_bytes());
}
