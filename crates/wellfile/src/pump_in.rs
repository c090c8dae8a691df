//! Records of shoe tests: CSV with a header that names both columns and their units, `volume [bbl], pressure [psi]`.

use rigwright_units::{Kind, find_unit, parse};

/// More readings than any test has.
const MOST: usize = 10_000;
const HELP: &str = "the first line names the columns with their units: `volume [bbl], pressure [psi]`";

/// Volume pumped in all and pressure at surface, row by row, or everything that is wrong. [m³, Pa]
pub fn pump_in(text: &str) -> Result<Vec<[f64; 2]>, Vec<String>> {
    let text = text.trim_start_matches('\u{feff}');
    let lines = text.lines().enumerate().map(|(at, line)| (at + 1, line.trim()));
    let mut lines = lines.filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    let Some((_, head)) = lines.next() else { return Err(vec![format!("there is no reading in this file: {HELP}")]) };
    let separator = [';', '\t'].into_iter().find(|mark| head.contains(*mark)).unwrap_or(',');
    let heads: Vec<&str> = head.split(separator).map(|cell| cell.trim().trim_matches('"').trim()).collect();
    let mut faults = Vec::new();
    let mut column = |name: &str, kind: Kind| {
        let Some(index) = heads.iter().position(|cell| cell.to_lowercase().starts_with(name)) else {
            faults.push(format!("there is no column `{name}`: {HELP}"));
            return None;
        };
        let unit = heads[index].split_once(['[', '(']).map_or("", |(_, rest)| rest.trim_end_matches([']', ')'])).trim();
        match find_unit(unit, kind) {
            Ok(_) => Some((index, unit, kind)),
            Err(_) => {
                faults.push(format!("the column `{}` has no unit of {}: {HELP}", heads[index], kind.name()));
                None
            }
        }
    };
    let (volume, pressure) = (column("volume", Kind::Volume), column("pressure", Kind::Pressure));
    let (Some(volume), Some(pressure)) = (volume, pressure) else { return Err(faults) };
    let mut rows = Vec::new();
    for (at, line) in lines {
        let cells: Vec<&str> = line.split(separator).map(str::trim).collect();
        let read = |(index, unit, kind): (usize, &str, Kind)| {
            let cell = cells.get(index).copied().unwrap_or("");
            parse(&format!("{cell} {unit}"), kind).ok().filter(|value| value.is_finite() && *value >= 0.0)
        };
        match (read(volume), read(pressure)) {
            (Some(volume), Some(pressure)) => rows.push([volume, pressure]),
            _ => faults.push(format!("line {at}: `{line}` is no volume and pressure from nought up")),
        }
    }
    if rows.len() > MOST {
        faults.push(format!("{} readings are more than a shoe test has", rows.len()));
    }
    if faults.is_empty() { Ok(rows) } else { Err(faults) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_columns_are_found_by_name_and_unit() {
        let rows = pump_in("# shoe test\ntime,pressure [psi],volume [bbl]\n1,100,0.25\n2,220,0.5\n").unwrap();
        assert_eq!(rows.len(), 2);
        assert!((rows[1][0] - 0.5 * 0.158_987_294_928).abs() < 1e-12);
        assert!((rows[1][1] - 220.0 * 6_894.757_293_168_361).abs() < 1e-6);
    }

    #[test]
    fn rejects_what_is_no_record() {
        assert!(pump_in("").unwrap_err()[0].contains("no reading"));
        assert_eq!(pump_in("volume, pressure [psi]\n1,2\n").unwrap_err().len(), 1);
        let faults = pump_in("volume [bbl], pressure [psi]\n1,100\nx,200\n2,-5\n").unwrap_err();
        assert!(faults.len() == 2 && faults[0].contains("line 3") && faults[1].contains("line 4"), "{faults:?}");
    }
}
