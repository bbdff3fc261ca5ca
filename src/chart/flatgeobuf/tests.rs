//! FlatGeobuf beside an independent writer's and reader's, and files that are broken anywhere.

use std::cell::Cell;
use std::io;
use std::ops::ControlFlow;

use flatgeobuf::geozero::{GeomProcessor, GeozeroGeometry, error::Result as GeoResult};
use flatgeobuf::{
    FallibleStreamingIterator, FeatureProperties, FgbCrs, FgbReader, FgbWriter, FgbWriterOptions,
    GeometryType,
};
use proptest::prelude::*;

use super::*;
use crate::Point;
use crate::coast::{Builder, Coast, LineKind};
use nav::{Grid, Position};

fn grid() -> Grid {
    Grid::parse("UTM:33N").unwrap()
}

/// A square about a place, with a hole.
struct Square(f64, f64);

impl GeozeroGeometry for Square {
    fn process_geom<P: GeomProcessor>(&self, to: &mut P) -> GeoResult<()> {
        to.polygon_begin(true, 2, 0)?;
        for (index, half) in [0.01, 0.005].into_iter().enumerate() {
            let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0)];
            to.linestring_begin(false, 5, index)?;
            for (number, (x, y)) in corners.into_iter().enumerate() {
                to.xy(self.0 + half * x, self.1 + half * y, number)?;
            }
            to.linestring_end(false, index)?;
        }
        to.polygon_end(true, 0)
    }
}

/// A file by the independent writer: squares at whole tenths of a degree.
fn squares(across: i32, code: i32, write_index: bool) -> Vec<u8> {
    let crs = FgbCrs { code, ..FgbCrs::default() };
    let options = FgbWriterOptions {
        write_index,
        promote_to_multi: false,
        crs,
        ..FgbWriterOptions::default()
    };
    let mut writer =
        FgbWriter::create_with_options("squares", GeometryType::Polygon, options).unwrap();
    for (i, j) in (0..across).flat_map(|i| (0..across).map(move |j| (i, j))) {
        let square = Square(12.0 + 0.1 * f64::from(i), 67.0 + 0.1 * f64::from(j));
        writer.add_feature_geom(square, |_| {}).unwrap();
    }
    let mut bytes = Vec::new();
    writer.write(&mut bytes).unwrap();
    bytes
}

fn go_on(_: u64) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

fn whole(bytes: &[u8]) -> Result<(Import, Outcome), FlatGeobufError> {
    read(bytes, &grid(), BadRings::Refuse, None, go_on)
}

/// A square kilometre about a place, as a chart's extent.
fn about(lon: f64, lat: f64) -> Extent {
    let position = Position::from_degrees(lat, lon).unwrap();
    let point = grid().forward(position).unwrap().point;
    let (x, y) = (point.easting.as_metres(), point.northing.as_metres());
    Extent::new((x - 500.0, y - 500.0), (x + 500.0, y + 500.0))
}

/// Counts what is read, and refuses buffers larger than the file.
struct Counted<'a> {
    bytes: &'a [u8],
    read: Cell<u64>,
}

impl Bytes for Counted<'_> {
    fn size(&self) -> u64 {
        self.bytes.len() as u64
    }

    fn read_at(&self, from: u64, into: &mut [u8]) -> io::Result<()> {
        assert!(into.len() <= self.bytes.len(), "{} bytes set aside", into.len());
        self.read.set(self.read.get() + into.len() as u64);
        self.bytes.read_at(from, into)
    }
}

#[test]
fn an_independent_writers_polygons_are_land_with_lakes() {
    for write_index in [true, false] {
        let bytes = squares(3, 4326, write_index);
        let (import, outcome) = whole(&bytes).unwrap();
        assert_eq!((import.shore.land.len(), outcome.features), (9, 9));
        assert!(import.shore.land.iter().all(|land| land.lakes.len() == 1));
        let (import, outcome) =
            read(&bytes[..], &grid(), BadRings::Refuse, Some(about(12.1, 67.2)), go_on).unwrap();
        assert_eq!((import.shore.land.len(), outcome.features), (1, 1));
        assert_eq!(outcome.wrong_index, None);
    }
}

#[test]
fn only_what_is_wanted_is_read() {
    let bytes = squares(120, 4326, true);
    let counted = Counted { bytes: &bytes, read: Cell::new(0) };
    let within = Some(about(15.0, 70.0));
    let (import, outcome) = read(&counted, &grid(), BadRings::Refuse, within, go_on).unwrap();
    assert_eq!((import.shore.land.len(), outcome.features, outcome.of), (1, 1, 14_400));
    let part = counted.read.get() as f64 / bytes.len() as f64;
    assert!(part < 0.3, "{part}");
}

#[test]
fn other_coordinate_systems_are_refused() {
    let message = whole(&squares(2, 27700, true)).unwrap_err().to_string();
    assert_eq!(
        message,
        "the file is in the coordinate system \"EPSG:27700\"; longitude and latitude on WGS 84 \
         (EPSG:4326) are wanted: convert it first"
    );
    assert!(whole(&squares(2, 0, true)).is_ok(), "none is said");
}

#[test]
fn a_file_that_is_none_is_refused() {
    for text in [&b""[..], b"fgb", b"{\"type\":\"FeatureCollection\"}", &[0; 64]] {
        assert!(matches!(whole(text), Err(FlatGeobufError::NotFlatGeobuf)));
    }
    let mut bytes = squares(1, 4326, true);
    bytes[3] = 4;
    let message = whole(&bytes).unwrap_err().to_string();
    assert_eq!(message, "version 4 of FlatGeobuf; this program reads up to version 3");
}

/// A head that claims so many features, before the squares of another file.
fn claiming(count: u64, width: u16, bytes: &[u8]) -> Vec<u8> {
    let mut builder = flatbuffers::FlatBufferBuilder::new();
    let args = flatgeobuf::HeaderArgs {
        geometry_type: GeometryType::Polygon,
        features_count: count,
        index_node_size: width,
        ..flatgeobuf::HeaderArgs::default()
    };
    let header = flatgeobuf::Header::create(&mut builder, &args);
    builder.finish_size_prefixed(header, None);
    [&header::MAGIC[..], builder.finished_data(), bytes].concat()
}

#[test]
fn more_features_than_the_file_can_hold_are_refused_before_anything_is_set_aside() {
    let rest = squares(3, 4326, true);
    for count in [1_000_000_000, 1000, u64::MAX, u64::MAX / 40] {
        for width in [0, 2, 16, u16::MAX] {
            let bytes = claiming(count, width, &rest);
            let counted = Counted { bytes: &bytes, read: Cell::new(0) };
            let within = Some(about(12.0, 67.0));
            let outcome = read(&counted, &grid(), BadRings::Refuse, within, go_on);
            let error = outcome.unwrap_err();
            assert!(matches!(error, FlatGeobufError::TooMany { .. }), "{count} {width}: {error}");
        }
    }
    assert!(claiming(9, 1, &rest).as_slice().size() > 0);
    assert!(matches!(whole(&claiming(9, 1, &rest)), Err(FlatGeobufError::Broken { .. })));
}

/// Where the index of a file begins, and how many nodes lie before its leaves.
fn index_of(bytes: &[u8]) -> (usize, usize) {
    let header = Header::read(bytes).unwrap();
    let leaves = header.index.unwrap().levels.last().unwrap().start;
    (header.index_at as usize, leaves as usize)
}

#[test]
fn a_wrong_index_is_passed_over_and_said() {
    let good = squares(6, 4326, true);
    let (at, leaves) = index_of(&good);
    let within = Some(about(12.1, 67.2));
    let expected = read(&good[..], &grid(), BadRings::Refuse, within, go_on).unwrap().0;
    for (node, word, value, why) in [
        (1, 4, u64::MAX, "node 1 points to 18446744073709551615, not 4"),
        (1, 4, 0, "node 1 points to 0, not 4"),
        (leaves, 4, 1 << 40, "points outside the features"),
        (leaves, 0, (-170.0_f64).to_bits(), "is not within its parent's"),
        (0, 0, 12.3_f64.to_bits(), "is not within its parent's"),
        (0, 0, f64::NAN.to_bits(), "is not within its parent's"),
    ] {
        let mut bytes = good.clone();
        // Every leaf, so that the wrong one is on the way.
        let nodes = if node == leaves { leaves..leaves + 36 } else { node..node + 1 };
        for node in nodes {
            let place = at + 40 * node + 8 * word;
            bytes[place..place + 8].copy_from_slice(&value.to_le_bytes());
        }
        let (import, outcome) = read(&bytes[..], &grid(), BadRings::Refuse, within, go_on).unwrap();
        let said = outcome.wrong_index.unwrap_or_default();
        assert!(said.contains(why), "{why}: {said}");
        assert_eq!(import, expected, "{why}");
    }
}

#[test]
fn a_box_that_does_not_hold_its_feature_is_an_error() {
    let mut bytes = squares(1, 4326, true);
    let (at, _) = index_of(&bytes);
    for node in 0..2 {
        let place = at + 40 * node + 16;
        bytes[place..place + 8].copy_from_slice(&12.005_f64.to_le_bytes());
    }
    let within = Some(about(12.0, 67.0));
    let error = read(&bytes[..], &grid(), BadRings::Refuse, within, go_on).unwrap_err();
    assert!(
        error.to_string().ends_with("its box in the index does not hold it; write the file again")
    );
}

#[test]
fn a_file_cut_short_anywhere_is_refused() {
    for write_index in [true, false] {
        let bytes = squares(3, 4326, write_index);
        for end in 0..bytes.len() {
            let counted = Counted { bytes: &bytes[..end], read: Cell::new(0) };
            let outcome = read(&counted, &grid(), BadRings::Refuse, None, go_on);
            assert!(outcome.is_err(), "cut at {end} of {}", bytes.len());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 2000, ..ProptestConfig::default() })]

    /// Whatever becomes of the bytes, it is read or refused.
    #[test]
    fn broken_bytes_do_no_harm(
        flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
        cut in any::<prop::sample::Index>(),
        is_cut in any::<bool>(),
        by_extent in any::<bool>(),
    ) {
        thread_local!(static FILE: Vec<u8> = squares(3, 4326, true));
        let mut bytes = FILE.with(Clone::clone);
        for (at, value) in flips {
            let at = at.index(bytes.len());
            bytes[at] = value;
        }
        if is_cut {
            bytes.truncate(cut.index(bytes.len()));
        }
        let counted = Counted { bytes: &bytes, read: Cell::new(0) };
        let within = by_extent.then(|| about(12.1, 67.1));
        let _ = read(&counted, &grid(), BadRings::LeaveOut, within, go_on);
    }
}

#[test]
fn large_land_is_cut_to_what_is_about_the_chart() {
    // Land over most of a hemisphere, of which the grid reaches a part.
    let mut builder = Builder::new(Grid::parse("EPSG:3395").unwrap());
    let corner = |lat: f64, lon: f64| {
        let grid = Grid::parse("EPSG:3395").unwrap();
        let point = grid.forward(Position::from_degrees(lat, lon).unwrap()).unwrap().point;
        Point { x: point.easting.as_metres(), y: point.northing.as_metres() }
    };
    let ring = [
        corner(-60.0, -150.0),
        corner(-60.0, 150.0),
        corner(67.001, 150.0),
        corner(67.001, -150.0),
    ];
    builder.line(LineKind::Land, 0, "Vast", ring);
    let mut bytes = Vec::new();
    write(&builder.finish(), "vast", &mut bytes).unwrap();
    let (import, _) =
        read(&bytes[..], &grid(), BadRings::Refuse, Some(about(12.0, 67.0)), go_on).unwrap();
    let [land] = &import.shore.land[..] else { panic!("{import:?}") };
    assert_eq!(land.name, "Vast");
    let extent = about(12.0, 67.0);
    assert!(land.shore.0.len() == 4);
    assert!(land.shore.0.iter().all(|p| (p.x - extent.center().x).abs() < 800.0));
}

fn islands(count: u32) -> Coast {
    let mut builder = Builder::new(grid());
    for index in 0..count {
        let (x, y) =
            (400_000.0 + 900.0 * f64::from(index % 30), 7.4e6 + 700.0 * f64::from(index / 30));
        let ring = |half: f64| {
            [(-half, -half), (half, -half), (half, half), (-half, half)]
                .map(|(a, b)| Point { x: x + a, y: y + b })
        };
        builder.line(LineKind::Land, index, if index == 7 { "Ytterøy" } else { "" }, ring(200.0));
        builder.line(LineKind::Lake, index, "", ring(50.0));
    }
    builder.line(
        LineKind::Open,
        0,
        "",
        [(4e5, 7.3e6), (4.01e5, 7.3e6), (4.02e5, 7.31e6)].map(Point::from),
    );
    builder.finish()
}

#[test]
fn what_is_written_is_read_back_and_by_an_independent_reader() {
    for count in [0, 1, 15, 16, 17, 300] {
        let coast = islands(count);
        let mut bytes = Vec::new();
        write(&coast, "islands", &mut bytes).unwrap();
        let (import, outcome) = whole(&bytes).unwrap();
        assert_eq!((import.shore.land.len(), import.shore.lines.len()), (count as usize, 1));
        assert_eq!(outcome.of, u64::from(count) + 1);
        let chart = import.into_chart(grid(), "t", "s");
        let again = Coast::of(&chart);
        assert_eq!(again.vertices(), coast.vertices());
        let named = |coast: &Coast| coast.lines().filter(|line| line.name() == "Ytterøy").count();
        assert_eq!(named(&again), named(&coast));

        let mut theirs = FgbReader::open(io::Cursor::new(&bytes)).unwrap().select_all().unwrap();
        let (mut features, mut names) = (0, 0);
        while let Some(feature) = theirs.next().unwrap() {
            features += 1;
            names += usize::from(feature.property::<String>("name").is_ok_and(|n| n == "Ytterøy"));
        }
        assert_eq!((features, names), (count as usize + 1, named(&coast)));
        // Every island is found by its place.
        for index in 0..count {
            let line = coast.lines().find(|l| l.kind() == LineKind::Land && l.feature() == index);
            let middle = line.unwrap().vertex(0) + Point { x: 200.0, y: 200.0 };
            let within = Extent::new(
                middle - Point { x: 50.0, y: 50.0 },
                middle + Point { x: 50.0, y: 50.0 },
            );
            let (import, outcome) =
                read(&bytes[..], &grid(), BadRings::Refuse, Some(within), go_on).unwrap();
            assert_eq!(outcome.wrong_index, None);
            assert!(!import.shore.land.is_empty());
        }
    }
}
