//! How far along the route the group was at each place of its track: both are walked from their
//! beginnings to their ends, never back, so that the distances between the two walkers add up to the
//! least (dynamic time warping: H. Sakoe and S. Chiba, Dynamic programming algorithm optimization for
//! spoken word recognition, IEEE Transactions on Acoustics, Speech, and Signal Processing 26, 1978).
//!
//! So a route that crosses itself, or comes back the same way, is followed in its own order, where the
//! nearest leg would be any of them.

use std::ops::Range;

use super::line::Line;
use super::plane::Spot;
use super::sample::Samples;

/// How far apart the places of track and route are that are held together, in metres, at least.
const APART: f64 = 50.0;
/// The most pairs of them; beyond it they lie farther apart.
const PAIRS: usize = 24_000_000;
/// What is farther away than this counts no more, in metres, so that a long way round pulls at nothing.
const FAR: f64 = 2_000.0;

/// Which places of the route belong to which of the track.
#[derive(Debug)]
pub(super) struct Progress {
    /// The samples that were held against the line.
    samples: Vec<usize>,
    /// The vertices of the line that they were held against.
    vertices: Vec<usize>,
    /// For each of those samples the first and the last of those vertices that belong to it.
    matched: Vec<(u32, u32)>,
    /// The sum of the distances.
    pub(super) cost: f64,
}

#[derive(Clone, Copy, PartialEq)]
enum From {
    Sample = 1,
    Vertex = 2,
    Both = 3,
}

impl Progress {
    pub(super) fn of(samples: &Samples, line: &Line, backwards: bool) -> Progress {
        let mut apart = APART;
        let (places, vertices) = loop {
            let places = places(samples, apart);
            let vertices = vertices(line, apart);
            if places.len().saturating_mul(vertices.len()) <= PAIRS {
                break (places, vertices);
            }
            apart *= 1.5;
        };
        let mut spots: Vec<Spot> = vertices.iter().map(|&vertex| line.vertices[vertex]).collect();
        if backwards {
            spots.reverse();
        }
        let walked: Vec<Spot> = places.iter().map(|&sample| samples.all[sample].at).collect();
        let (cost, from) = table(&walked, &spots);
        let matched = traced_back(&from, walked.len(), spots.len());
        Progress { samples: places, vertices, matched, cost }
    }

    /// The samples, from the first to beyond the last, that belong to a part of the line, given by its
    /// vertices, both included.
    pub(super) fn samples_on(&self, first: usize, last: usize) -> Range<usize> {
        let low = self.vertices.partition_point(|&vertex| vertex < first);
        let high = self.vertices.partition_point(|&vertex| vertex <= last).saturating_sub(1);
        let begin = self.matched.partition_point(|&(_, to)| (to as usize) < low);
        let end = self.matched.partition_point(|&(from, _)| (from as usize) <= high);
        // From the place held before to that after, since what lies between belongs to both.
        let at = |place: usize| self.samples.get(place).or(self.samples.last()).copied();
        at(begin.saturating_sub(1)).unwrap_or(0)..at(end).map_or(0, |sample| sample + 1)
    }

    /// The vertices, first and last, that a sample belongs to.
    pub(super) fn vertices_of(&self, sample: usize) -> (usize, usize) {
        let after = self.samples.partition_point(|&held| held <= sample);
        let before = after.saturating_sub(1);
        let matched = |place: usize| self.matched.get(place).or(self.matched.last());
        let low = matched(before).map_or(0, |it| it.0 as usize);
        let high = matched(after).map_or(0, |it| it.1 as usize);
        let vertex = |at: usize| self.vertices.get(at).copied().unwrap_or(0);
        (vertex(low), vertex(high))
    }
}

/// Samples at least so far apart, the first and the last among them.
fn places(samples: &Samples, apart: f64) -> Vec<usize> {
    let mut places: Vec<usize> = Vec::new();
    for (index, sample) in samples.all.iter().enumerate() {
        let before = places.last().and_then(|&last| samples.all.get(last));
        if before.is_none_or(|before| before.at.away(sample.at) >= apart) {
            places.push(index);
        }
    }
    let last = samples.all.len().saturating_sub(1);
    if places.last() != Some(&last) {
        places.push(last);
    }
    places
}

/// Vertices as far apart, those of the route's points among them.
///
/// A long side has none within: the line's sides are short enough.
fn vertices(line: &Line, apart: f64) -> Vec<usize> {
    let mut vertices: Vec<usize> = vec![0];
    for vertex in 1..line.vertices.len() {
        let before = vertices.last().and_then(|&last| line.along.get(last));
        let far = before.is_some_and(|before| line.along[vertex] - before >= apart);
        if far || line.points.binary_search(&vertex).is_ok() {
            vertices.push(vertex);
        }
    }
    vertices
}

/// The least sum of distances, and the way that it was come by at each pair.
fn table(walked: &[Spot], line: &[Spot]) -> (f64, Vec<u8>) {
    let wide = line.len();
    let mut from = vec![0_u8; walked.len() * wide];
    let (mut before, mut row) = (vec![f64::MAX; wide], vec![f64::MAX; wide]);
    for (number, at) in walked.iter().enumerate() {
        let ways = &mut from[number * wide..(number + 1) * wide];
        let (mut left, mut corner) = (f64::MAX, f64::MAX);
        for (vertex, spot) in line.iter().enumerate() {
            let above = before[vertex];
            let (least, way) = match (number, vertex) {
                (0, 0) => (0.0, From::Both),
                _ if corner <= above && corner <= left => (corner, From::Both),
                _ if above <= left => (above, From::Sample),
                _ => (left, From::Vertex),
            };
            ways[vertex] = way as u8;
            left = least + at.away(*spot).min(FAR);
            row[vertex] = left;
            corner = above;
        }
        std::mem::swap(&mut before, &mut row);
    }
    (before.last().copied().unwrap_or_default(), from)
}

/// For each place of the track the first and the last place of the line.
fn traced_back(from: &[u8], walked: usize, wide: usize) -> Vec<(u32, u32)> {
    let mut matched = vec![(u32::MAX, 0_u32); walked];
    let (mut place, mut vertex) = (walked.saturating_sub(1), wide.saturating_sub(1));
    while let Some(pair) = matched.get_mut(place) {
        *pair = (pair.0.min(vertex as u32), pair.1.max(vertex as u32));
        if place == 0 && vertex == 0 {
            break;
        }
        let way = from.get(place * wide + vertex).copied().unwrap_or_default();
        if way != From::Vertex as u8 {
            place = place.saturating_sub(1);
        }
        if way != From::Sample as u8 {
            vertex = vertex.saturating_sub(1);
        }
    }
    matched
}
