//! Quantities side by side, each a bar with the limit that it is held against: parts of a whole, loads on one structure.

use super::Axis;
use super::numbers::{number, quoted};
use super::scale::Scale;
use super::svg::{Edges, escape, head};
use std::fmt::Write as _;

/// Bars of one kind of quantity.
#[derive(Clone, Debug, PartialEq)]
pub struct Bars {
    /// What they show.
    pub title: String,
    /// Under which conditions; a line below the title.
    pub note: String,
    /// What their length measures.
    pub values: Axis,
    /// From top to bottom.
    pub rows: Vec<Bar>,
}

/// One bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What it is.
    pub name: String,
    /// Its length.
    pub value: f64,
    /// The limit that it is held against.
    pub limit: Option<f64>,
    /// Whose limit that is.
    pub of: String,
}

const ROW: f64 = 46.0;
const EDGES: Edges = Edges { wide: 960.0, high: 0.0, left: 280.0, right: 860.0, top: 108.0, bottom: 0.0 };

impl Bars {
    /// Heads and rows as text: name, value, limit, whose limit.
    pub fn table(&self) -> (Vec<String>, Vec<Vec<String>>) {
        let unit = &self.values.unit;
        let limits = self.rows.iter().any(|bar| bar.limit.is_some());
        let mut heads = vec!["part".to_owned(), format!("{} [{unit}]", self.values.label)];
        if limits {
            heads.extend([format!("limit [{unit}]"), "limit of".to_owned()]);
        }
        let row = |bar: &Bar| {
            let mut cells = vec![bar.name.clone(), number(bar.value)];
            if limits {
                cells.extend([bar.limit.map_or_else(String::new, number), bar.of.clone()]);
            }
            cells
        };
        (heads, self.rows.iter().map(row).collect())
    }

    /// The table as CSV after RFC 4180.
    pub fn csv(&self) -> String {
        let (heads, rows) = self.table();
        let mut out = String::new();
        for row in std::iter::once(&heads).chain(&rows) {
            out.push_str(&row.iter().map(|cell| quoted(cell)).collect::<Vec<_>>().join(","));
            out.push_str("\r\n");
        }
        out
    }

    /// The bars as an element of a page that brings its own style.
    pub fn svg_in_page(&self, id: &str) -> String {
        let mut out = String::new();
        self.write(&mut out, id).unwrap_or_else(|_| unreachable!("a string takes every write"));
        out
    }

    fn write(&self, out: &mut String, id: &str) -> std::fmt::Result {
        let bottom = EDGES.top + ROW * self.rows.len() as f64;
        let edges = Edges { bottom, high: bottom + 16.0, ..EDGES };
        let Edges { left, right, top, .. } = edges;
        let lengths = self.rows.iter().flat_map(|bar| [Some(bar.value), bar.limit]).flatten();
        let scale = Scale::around(lengths.chain(std::iter::once(0.0)), left, right);
        head(out, &edges, "", [&self.title, &self.note], Some(id))?;
        let middle = f64::midpoint(left, right);
        let label = escape(&format!("{} [{}]", self.values.label, self.values.unit));
        writeln!(out, "<text class=\"across\" x=\"{middle:.1}\" y=\"{:.1}\">{label}</text>", top - 30.0)?;
        for tick in scale.ticks() {
            let (x, decimals) = (scale.place(tick), scale.decimals());
            writeln!(out, "<line class=\"grid\" x1=\"{x:.1}\" x2=\"{x:.1}\" y1=\"{top}\" y2=\"{bottom}\"/>")?;
            writeln!(out, "<text class=\"across\" x=\"{x:.1}\" y=\"{:.1}\">{tick:.decimals$}</text>", top - 9.0)?;
        }
        for (index, bar) in self.rows.iter().enumerate() {
            let y = top + ROW * index as f64;
            let (from, to) = (scale.place(0.0), scale.place(bar.value));
            let (x, wide) = (from.min(to), (to - from).abs());
            let name = escape(&bar.name);
            writeln!(out, "<text class=\"down\" x=\"{:.1}\" y=\"{:.1}\">{name}</text>", left - 10.0, y + 27.0)?;
            writeln!(out, "<rect class=\"used\" x=\"{x:.1}\" y=\"{:.1}\" width=\"{wide:.1}\" height=\"20\"/>", y + 12.0)?;
            let mut end = to;
            if let Some(limit) = bar.limit {
                let at = scale.place(limit);
                let (above, below) = (y + 6.0, y + 38.0);
                writeln!(out, "<line class=\"limit\" x1=\"{at:.1}\" x2=\"{at:.1}\" y1=\"{above:.1}\" y2=\"{below:.1}\"/>")?;
                end = end.max(at);
            }
            let figure = crate::figure::rounded(bar.value);
            writeln!(out, "<text class=\"bar-figure\" x=\"{:.1}\" y=\"{:.1}\">{figure}</text>", end + 8.0, y + 27.0)?;
        }
        writeln!(out, "<line class=\"frame\" x1=\"{0:.1}\" x2=\"{0:.1}\" y1=\"{top}\" y2=\"{bottom}\"/>", scale.place(0.0))?;
        writeln!(out, "</svg>")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bars() -> Bars {
        let bar = |name: &str, value, limit| Bar { name: name.into(), value, limit, of: "a <plate>".into() };
        Bars {
            title: "loads".into(),
            note: String::new(),
            values: Axis { label: "load".into(), unit: "klbf".into() },
            rows: vec![bar("=fast line", 40.0, Some(80.0)), bar("dead line", 32.5, None)],
        }
    }

    #[test]
    fn bars_have_their_numbers() {
        let csv = bars().csv();
        assert!(csv.starts_with("\"part\",\"load [klbf]\",\"limit [klbf]\",\"limit of\"\r\n"), "{csv}");
        assert!(csv.contains("\"'=fast line\",\"40\",\"80\""), "{csv}");
    }

    /// Definition: bars begin at nought, so that their lengths compare as their values do.
    #[test]
    fn law_lengths_compare_as_values_do() {
        let svg = bars().svg_in_page("x");
        let wide: Vec<f64> = svg
            .split("class=\"used\"")
            .skip(1)
            .map(|rest| rest.split("width=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap())
            .collect();
        assert!((wide[0] / wide[1] - 40.0 / 32.5).abs() < 2e-3, "{wide:?}");
        assert!(!svg.contains("<plate>"));
    }
}
