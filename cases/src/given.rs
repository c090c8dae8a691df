//! The inputs of a check, read by name as quantities. It notes what was read, so that an input which no
//! one asked for is found: a misspelt name must not pass in silence.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use rigwright_units::{Kind, parse};
use toml::{Table, Value};

/// The inputs of a check.
#[derive(Debug)]
pub struct Given<'a> {
    table: &'a Table,
    /// Where this table lies in the whole: "sections[2]."
    place: String,
    read: Rc<RefCell<BTreeSet<String>>>,
}

impl<'a> Given<'a> {
    /// All inputs of a check.
    pub fn new(table: &'a Table) -> Given<'a> {
        Given { table, place: String::new(), read: Rc::default() }
    }

    /// Whether an input is given.
    pub fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// A quantity. [SI]
    pub fn quantity(&self, key: &str, kind: Kind) -> Result<f64, String> {
        self.one(key, self.value(key)?, kind)
    }

    /// A quantity, or what it is when it is not given. [SI]
    pub fn quantity_or(&self, key: &str, kind: Kind, otherwise: f64) -> Result<f64, String> {
        if self.has(key) { self.quantity(key, kind) } else { Ok(otherwise) }
    }

    /// A list of quantities of one kind. [SI]
    pub fn list(&self, key: &str, kind: Kind) -> Result<Vec<f64>, String> {
        self.array(key)?.iter().map(|value| self.one(key, value, kind)).collect()
    }

    /// A word: which method, which type of bit.
    pub fn text(&self, key: &str) -> Result<&'a str, String> {
        self.value(key)?.as_str().ok_or_else(|| format!("given `{}{key}` should be text", self.place))
    }

    /// A list of tables, each with inputs of its own.
    pub fn rows(&self, key: &str) -> Result<Vec<Given<'a>>, String> {
        let rows = self.array(key)?.iter().enumerate();
        rows.map(|(at, value)| {
            let place = format!("{}{key}[{at}].", self.place);
            let table = value.as_table().ok_or_else(|| format!("given `{place}` should be a table"))?;
            Ok(Given { table, place, read: Rc::clone(&self.read) })
        })
        .collect()
    }

    /// Inputs that were given and never read.
    pub fn unread(&self) -> Vec<String> {
        let mut all = Vec::new();
        names(self.table, "", &mut all);
        let read = self.read.borrow();
        all.into_iter().filter(|name| !read.contains(name)).collect()
    }

    fn value(&self, key: &str) -> Result<&'a Value, String> {
        let value = self.table.get(key).ok_or_else(|| format!("`{}{key}` is not given", self.place))?;
        self.read.borrow_mut().insert(format!("{}{key}", self.place));
        Ok(value)
    }

    fn array(&self, key: &str) -> Result<&'a Vec<Value>, String> {
        self.value(key)?.as_array().ok_or_else(|| format!("given `{}{key}` should be a list", self.place))
    }

    fn one(&self, key: &str, value: &Value, kind: Kind) -> Result<f64, String> {
        let text = match value {
            Value::String(text) => text.clone(),
            // A number without unit; `parse` refuses it where the kind needs one.
            Value::Integer(number) => number.to_string(),
            Value::Float(number) => number.to_string(),
            other => return Err(format!("given `{}{key}` should be a quantity, not a {}", self.place, other.type_str())),
        };
        parse(&text, kind).map_err(|error| format!("given `{}{key} = {text}`: {error}", self.place))
    }
}

/// The full names of all inputs of a table, rows included.
fn names(table: &Table, place: &str, all: &mut Vec<String>) {
    for (key, value) in table {
        all.push(format!("{place}{key}"));
        let rows = value.as_array().into_iter().flatten().enumerate();
        for (at, row) in rows {
            if let Some(row) = row.as_table() {
                names(row, &format!("{place}{key}[{at}]."), all);
            }
        }
    }
}
