//! Bracketing root finder and integration over points. Nothing here iterates without a proof that it ends.

/// A root of a continuous function between `low` and `high`, by Chandrupatla's bracketing method.
///
/// Returns `None` when the ends do not bracket a root or a value is not finite. The bracket shrinks at
/// every step, by bisection where interpolation would not help, so the search ends: after at most 200
/// evaluations, in practice fewer than 15. The root is exact to about 1e-13 of its size.
///
/// *Source*: T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145, as given in P. O. J. Scherer,
/// Computational Physics (from memory).
pub fn root(mut f: impl FnMut(f64) -> f64, low: f64, high: f64) -> Option<f64> {
    let ends = [(low, f(low)), (high, f(high))];
    root_between(f, ends)
}

/// The same where the values at both ends are known: each end with its value, the lower first.
pub fn root_between(f: impl FnMut(f64) -> f64, ends: [(f64, f64); 2]) -> Option<f64> {
    root_from(f, ends, 0.5)
}

/// The same for a function that is nearly straight between the ends: looked for first where their chord passes through nought, not
/// half-way, which spares an evaluation where it is straight enough.
pub fn root_of_straight(f: impl FnMut(f64) -> f64, ends: [(f64, f64); 2]) -> Option<f64> {
    let [low, high] = ends.map(|end| end.1);
    root_from(f, ends, high / (high - low))
}

/// `first`: the share of the way from the upper to the lower end at which the search begins.
fn root_from(mut f: impl FnMut(f64) -> f64, [low, high]: [(f64, f64); 2], first: f64) -> Option<f64> {
    let ((mut b, mut fb), (mut a, mut fa)) = (low, high);
    if fa == 0.0 {
        return Some(a);
    }
    if fb == 0.0 {
        return Some(b);
    }
    if !(fa.is_finite() && fb.is_finite()) || (fa > 0.0) == (fb > 0.0) {
        return None;
    }
    let mut share = first;
    for _ in 0..200 {
        let x = a + share * (b - a);
        let fx = f(x);
        if !fx.is_finite() {
            return None;
        }
        let (c, fc);
        if (fx > 0.0) == (fa > 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);
        let (best, f_best) = if fa.abs() < fb.abs() { (a, fa) } else { (b, fb) };
        let tolerance = 2.0 * f64::EPSILON * best.abs() + f64::MIN_POSITIVE;
        let limit = tolerance / (b - a).abs();
        if limit > 0.5 || f_best == 0.0 {
            return Some(best);
        }
        let xi = (a - b) / (c - b);
        let phi = (fa - fb) / (fc - fb);
        share = if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
            fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        } else {
            0.5
        };
        share = share.clamp(limit, 1.0 - limit);
    }
    None
}

/// Straight-line interpolation in points ordered by x; flat beyond the ends. `None` for no points.
pub fn interpolate(points: &[(f64, f64)], x: f64) -> Option<f64> {
    let (first, last) = (points.first()?, points.last()?);
    if x <= first.0 {
        return Some(first.1);
    }
    if x >= last.0 {
        return Some(last.1);
    }
    let upper = points.partition_point(|point| point.0 <= x);
    let ((x0, y0), (x1, y1)) = (points[upper - 1], points[upper]);
    Some(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_root_solves_what_it_brackets() {
        let cube = root(|x| x * x * x - 2.0, 0.0, 2.0).unwrap();
        assert!((cube - 2f64.cbrt()).abs() < 1e-14);
        let steep = root(|x: f64| x.exp() - 1e9, 0.0, 100.0).unwrap();
        assert!((steep - 1e9f64.ln()).abs() < 1e-12);
        assert_eq!(root(|x| x * x + 1.0, -1.0, 1.0), None);
        assert_eq!(root(|_| f64::NAN, -1.0, 1.0), None);
        let mut calls = 0;
        root(
            |x: f64| {
                calls += 1;
                (x - 0.3).powi(9)
            },
            -1.0,
            1.0,
        );
        assert!(calls < 200);
    }

    #[test]
    fn law_ends_that_are_known_are_not_asked_again() {
        let f = |x: f64| x.exp() - 3.0;
        let mut asked = Vec::new();
        let between = root_between(
            |x| {
                asked.push(x);
                f(x)
            },
            [(0.0, f(0.0)), (2.0, f(2.0))],
        );
        assert_eq!(between, root(f, 0.0, 2.0));
        assert!(!asked.is_empty() && asked.iter().all(|x| *x > 0.0 && *x < 2.0));
    }

    #[test]
    fn law_a_start_on_the_chord_ends_at_the_same_root_sooner() {
        let mut spared = 0;
        for bend in [0.0001, 0.001, 0.01, 0.05, -0.01] {
            // Close enough is nought, as where a search is told when to stop.
            let close = |value: f64| if value.abs() < 1e-7 { 0.0 } else { value };
            let f = |x: f64| close(x + bend * x * x - 0.7);
            let ends = [(0.0, f(0.0)), (4.0, f(4.0))];
            let (mut fewer, mut more) = (0, 0);
            let straight = root_of_straight(
                |x| {
                    fewer += 1;
                    f(x)
                },
                ends,
            );
            let halves = root_between(
                |x| {
                    more += 1;
                    f(x)
                },
                ends,
            );
            assert!((straight.unwrap() - halves.unwrap()).abs() < 1e-6);
            assert!(fewer <= more, "{bend}: {fewer} {more}");
            spared += more - fewer;
        }
        assert!(spared > 0);
        assert_eq!(root_of_straight(|x| x * x + 1.0, [(-1.0, 2.0), (1.0, 2.0)]), None);
    }

    #[test]
    fn law_interpolation_passes_through_its_points() {
        let points = [(0.0, 1.0), (2.0, 5.0), (2.0, 7.0), (4.0, 7.0)];
        assert_eq!(interpolate(&points, 1.0), Some(3.0));
        assert_eq!(interpolate(&points, -1.0), Some(1.0));
        assert_eq!(interpolate(&points, 9.0), Some(7.0));
        assert_eq!(interpolate(&points, 2.0), Some(7.0));
        assert_eq!(interpolate(&[], 2.0), None);
    }
}
