//! From values to places on the sheet, and round values to write beside an axis.

/// A straight scale between two values and two places.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    low: f64,
    high: f64,
    from: f64,
    to: f64,
}

impl Scale {
    /// The scale that spans these values, widened to whole steps, from one place to another.
    pub(super) fn around(values: impl Iterator<Item = f64>, from: f64, to: f64) -> Scale {
        let (low, high) = values
            .filter(|value| value.is_finite())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
        // Nothing to draw, or one value only: a step on either side makes an axis of it.
        let (low, high) = if low > high { (0.0, 1.0) } else { (low, high) };
        let wide = if high - low > 1e-9 * high.abs().max(low.abs()) { high - low } else { high.abs().max(1.0) };
        let step = step(wide);
        Scale { low: (low / step).floor() * step, high: (high / step).ceil() * step, from, to }
    }

    /// The place of a value.
    pub(super) fn place(&self, value: f64) -> f64 {
        if self.high - self.low > 0.0 {
            self.from + (value - self.low) / (self.high - self.low) * (self.to - self.from)
        } else {
            f64::midpoint(self.from, self.to)
        }
    }

    /// The values at its two ends.
    pub(super) fn ends(&self) -> (f64, f64) {
        (self.low, self.high)
    }

    /// Round values along the scale, ends included.
    pub(super) fn ticks(&self) -> Vec<f64> {
        let step = step(self.high - self.low);
        let count = ((self.high - self.low) / step).round() as usize;
        (0..=count).map(|index| self.low + index as f64 * step).collect()
    }

    /// Decimals that its ticks need.
    pub(super) fn decimals(&self) -> usize {
        let step = step(self.high - self.low);
        (0..6).find(|decimals| (step * 10f64.powi(*decimals)).fract().abs() < 1e-9).unwrap_or(6) as usize
    }
}

/// A round step that divides a span into five to eleven parts: 1, 2 or 5 with noughts.
fn step(span: f64) -> f64 {
    let ideal = if span > 0.0 { span / 8.0 } else { 1.0 };
    let power = 10f64.powf(ideal.log10().floor());
    let factor = [1.0, 2.0, 5.0].into_iter().find(|factor| factor * power >= ideal * 0.999).unwrap_or(10.0);
    factor * power
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_every_value_lies_between_the_ends_of_its_scale() {
        for (low, high) in [(8.5, 16.3), (0.0, 11_000.0), (-3.0, 2.5), (1e-6, 3e-6), (9.0, 9.0), (1e6, 1e9)] {
            let scale = Scale::around([low, high].into_iter(), 0.0, 100.0);
            assert!((0.0..=100.0).contains(&scale.place(low)) && (0.0..=100.0).contains(&scale.place(high)), "{low} {high}");
            let ticks = scale.ticks();
            assert!((2..=13).contains(&ticks.len()), "{low} {high}: {ticks:?}");
            assert!(ticks[0] <= low && ticks[ticks.len() - 1] >= high * (1.0 - 1e-12), "{low} {high}: {ticks:?}");
        }
    }

    #[test]
    fn nothing_to_draw_still_has_an_axis() {
        let scale = Scale::around(std::iter::empty(), 0.0, 100.0);
        assert!(scale.place(0.5).is_finite());
        assert!(scale.ticks().len() > 1);
    }
}
