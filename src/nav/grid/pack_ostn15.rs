//! Packs the national mapping agency's file of OSTN15 into the table that the program carries.
//!
//! Run it on the agency's file, as text with a header and one node a line:
//!
//! ```text
//! cargo run -p nav --example pack_ostn15 -- OSTN15_OSGM15_DataFile.txt src/nav/grid/ostn15.zlib
//! ```
//!
//! Taken are the columns 2 to 5 of each line: easting and northing of the node in metres, and
//! the shifts of easting and northing in metres to the millimetre. Heights are left out. The
//! table is one zlib stream: for each of the two shifts, from the south-west node eastwards and
//! then row by row northwards, the shift in whole millimetres less its prediction from the
//! neighbours before it (west + south - south-west; nothing beyond the edge), as a zig-zag
//! varint: the sign in the lowest bit, seven bits a byte, the lowest first, the top bit set on
//! all bytes but the last. No shift is rounded on the way: the table is the file.

use std::error::Error;
use std::fs;
use std::io::Write;

use flate2::{Compression, write::ZlibEncoder};

/// Nodes from west to east, 1 km apart.
const COLUMNS: usize = 701;
/// Nodes from south to north.
const ROWS: usize = 1251;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [input, output] = arguments.as_slice() else {
        return Err("usage: pack_ostn15 AGENCY_FILE TABLE".into());
    };
    let shifts = read(&fs::read_to_string(input)?)?;
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::best());
    for component in 0..2 {
        encoder.write_all(&packed(&shifts, component))?;
    }
    fs::write(output, encoder.finish()?)?;
    Ok(())
}

/// The shifts of all nodes in whole millimetres, each node in its place.
fn read(text: &str) -> Result<Vec<[i64; 2]>, Box<dyn Error>> {
    let mut shifts = vec![None; COLUMNS * ROWS];
    for (number, line) in (1..).zip(text.lines()).skip(1) {
        let fields: Vec<&str> = line.trim().split(',').collect();
        let [_, easting, northing, east, north, ..] = fields.as_slice() else {
            return Err(format!("line {number}: fewer than five columns").into());
        };
        let (easting, northing): (usize, usize) = (easting.parse()?, northing.parse()?);
        let (column, row) = (easting / 1000, northing / 1000);
        let on_node = easting % 1000 == 0 && northing % 1000 == 0;
        if !on_node || column >= COLUMNS || row >= ROWS {
            return Err(format!("line {number}: {easting} {northing} is no node").into());
        }
        shifts[row * COLUMNS + column] = Some([millimetres(east)?, millimetres(north)?]);
    }
    let all: Option<Vec<_>> = shifts.into_iter().collect();
    all.ok_or_else(|| "a node is missing".into())
}

/// `90.750` is 90750: taken digit by digit, so that nothing is rounded.
fn millimetres(text: &str) -> Result<i64, Box<dyn Error>> {
    match text.split_once('.') {
        Some((_, decimals)) if decimals.len() == 3 => Ok(text.replace('.', "").parse()?),
        _ => Err(format!("{text} is not in metres with three decimals").into()),
    }
}

/// One of the two shifts of all nodes, predicted and written as zig-zag varints.
fn packed(shifts: &[[i64; 2]], component: usize) -> Vec<u8> {
    let mut bytes = Vec::new();
    let at = |row: Option<usize>, column: Option<usize>| match (row, column) {
        (Some(row), Some(column)) => shifts[row * COLUMNS + column][component],
        _ => 0,
    };
    for row in 0..ROWS {
        for column in 0..COLUMNS {
            let (south, west) = (row.checked_sub(1), column.checked_sub(1));
            let predicted = at(Some(row), west) + at(south, Some(column)) - at(south, west);
            let rest = at(Some(row), Some(column)) - predicted;
            let mut zigzag = ((rest << 1) ^ (rest >> 63)).cast_unsigned();
            while zigzag >= 0x80 {
                bytes.push((zigzag & 0x7f) as u8 | 0x80);
                zigzag >>= 7;
            }
            bytes.push(zigzag as u8);
        }
    }
    bytes
}
