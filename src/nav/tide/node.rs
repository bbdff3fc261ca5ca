//! Node factors: how the tilt of the moon's orbit, which swings in 18.6 years, changes each constituent.
//!
//! All equations by their numbers in Schureman, Special Publication 98 (1940).

use super::astro::Angles;

/// For when node factors are reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum NodalFactors {
    /// Once for each calendar year in UTC, for its July 2, 12 h, as agencies do for the tables they
    /// print. At midnight of New Year the curve steps by some millimetres.
    #[default]
    MidYear,
    /// For noon in UTC of each day. For each metre of a constituent's amplitude the curve steps at
    /// midnight by less than 0.2 mm, for `L2` and `M1` by less than 4 mm.
    Daily,
}

/// The kinds of node factor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Node {
    /// The sun's own: none.
    None,
    Mm,
    Mf,
    O1,
    J1,
    Oo1,
    M2,
    Kj2,
    M1,
    M1C,
    M3,
    K1,
    K2,
    L2,
}

/// Obliquity of the ecliptic, degrees: 23°27′8.26″ (table 1, epoch 1900).
const OBLIQUITY: f64 = 23.452_294;
/// Inclination of the moon's orbit to the ecliptic, degrees: 5°08′43.35″ (table 1).
const INCLINATION: f64 = 5.145_376;

/// What amplitude is multiplied by, and the degrees added to the argument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Factor {
    pub(super) f: f64,
    pub(super) u: f64,
}

/// The moon's orbit as the factors see it; angles in radians.
#[derive(Debug, Clone, Copy)]
pub(super) struct Orbit {
    /// Inclination of the moon's orbit to the equator, I.
    i: f64,
    /// Right ascension of the intersection, ν.
    nu: f64,
    /// Longitude in the orbit of the intersection, ξ.
    xi: f64,
    /// Longitude of the perigee from the intersection, P.
    p: f64,
}

impl Orbit {
    pub(super) fn of(angles: &Angles) -> Orbit {
        let (perigee, node) = angles.perigee_and_node();
        let (w, tilt) = (OBLIQUITY.to_radians(), INCLINATION.to_radians());
        // Within half a turn of zero, so that the half angles below do not jump.
        let n = ((node + 180.0).rem_euclid(360.0) - 180.0).to_radians();
        let i = (tilt.cos() * w.cos() - tilt.sin() * w.sin() * n.cos()).acos();
        // Napier's analogies for the triangle of node, equinox and intersection: p. 156.
        let (sin, cos) = (n / 2.0).sin_cos();
        let sum = f64::atan2(((w - tilt) / 2.0).cos() * sin, ((w + tilt) / 2.0).cos() * cos);
        let difference = f64::atan2(((w - tilt) / 2.0).sin() * sin, ((w + tilt) / 2.0).sin() * cos);
        let (nu, xi) = (sum - difference, n - sum - difference);
        Orbit { i, nu, xi, p: perigee.to_radians() - xi }
    }

    /// The factor of a kind.
    pub(super) fn factor(&self, node: Node) -> Factor {
        let (f, u) = self.radians(node);
        Factor { f, u: u.to_degrees() }
    }

    fn radians(&self, node: Node) -> (f64, f64) {
        let &Orbit { i, nu, xi, .. } = self;
        let sin = i.sin();
        let half = (i / 2.0).cos().powi(2);
        match node {
            Node::None => (1.0, 0.0),
            // (73), (74), (75), (76), (77), (78), (79), (149)
            Node::Mm => ((2.0 / 3.0 - sin * sin) / 0.5021, 0.0),
            Node::Mf => (sin * sin / 0.1578, -2.0 * xi),
            Node::O1 => (sin * half / 0.3800, 2.0 * xi - nu),
            Node::J1 => ((2.0 * i).sin() / 0.7214, -nu),
            Node::Oo1 => (sin * (1.0 - half) / 0.016_4, -2.0 * xi - nu),
            Node::M2 => (half * half / 0.9154, 2.0 * xi - 2.0 * nu),
            Node::Kj2 => (sin * sin / 0.1565, -2.0 * nu),
            Node::M3 => (half.powi(3) / 0.8758, 3.0 * xi - 3.0 * nu),
            Node::M1 => self.m1(),
            Node::M1C => self.m1c(),
            Node::K1 => self.k1(),
            Node::K2 => self.k2(),
            Node::L2 => self.l2(),
        }
    }

    /// f by (144), u of the same term.
    fn m1c(&self) -> (f64, f64) {
        let half_sin = (self.i / 2.0).sin().powi(2);
        let f = (1.0 - 10.0 * half_sin + 15.0 * half_sin * half_sin) * (1.0 - half_sin) / 0.5873;
        (f, self.xi - self.nu)
    }

    /// f by (197) and (206), u = -ν - Q_u by (202) and (203).
    fn m1(&self) -> (f64, f64) {
        let cos = self.i.cos();
        let half = (self.i / 2.0).cos().powi(2);
        let inverse_q =
            (0.25 + 1.5 * cos / half * (2.0 * self.p).cos() + 2.25 * (cos / half).powi(2)).sqrt();
        let q = f64::atan2((5.0 * cos - 1.0) * self.p.sin(), (7.0 * cos + 1.0) * self.p.cos());
        let (f, _) = self.radians(Node::O1);
        (f * inverse_q, -self.nu - (self.p - q))
    }

    /// f by (227), ν′ by (224).
    fn k1(&self) -> (f64, f64) {
        let sin = (2.0 * self.i).sin();
        let f = (0.8965 * sin * sin + 0.6001 * sin * self.nu.cos() + 0.1006).sqrt();
        (f, -f64::atan2(sin * self.nu.sin(), sin * self.nu.cos() + 0.3347))
    }

    /// f by (235), 2ν″ by (232).
    fn k2(&self) -> (f64, f64) {
        let square = self.i.sin().powi(2);
        let (sin, cos) = (2.0 * self.nu).sin_cos();
        let f = (19.0444 * square * square + 2.7702 * square * cos + 0.0981).sqrt();
        (f, -f64::atan2(square * sin, square * cos + 0.0727))
    }

    /// f by (213) and (215), R by (214).
    fn l2(&self) -> (f64, f64) {
        let square = (self.i / 2.0).tan().powi(2);
        let (sin, cos) = (2.0 * self.p).sin_cos();
        let inverse_r = (1.0 - 12.0 * square * cos + 36.0 * square * square).sqrt();
        let r = f64::atan2(sin, 1.0 / (6.0 * square) - cos);
        let (f, u) = self.radians(Node::M2);
        (f * inverse_r, u - r)
    }
}
