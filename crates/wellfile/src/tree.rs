//! The entry table as a tree, so that a file can be walked against it.

use crate::entries::ENTRIES;
use crate::entry::{Entry, Form};
use crate::take::Usual;
use std::sync::LazyLock;

/// A key of a file and what may stand there: a value, a table (or a list of tables), or either.
#[derive(Debug, Default)]
pub(crate) struct Node {
    pub(crate) key: &'static str,
    pub(crate) value: Option<&'static Entry>,
    /// The default of the value, where it has one.
    pub(crate) usual: Option<Usual>,
    pub(crate) table: Option<&'static Entry>,
    pub(crate) children: Vec<Node>,
}

/// Keys of the well file.
pub(crate) static WELL: LazyLock<Node> = LazyLock::new(|| grow(|path| (!path.starts_with("rig.")).then_some(path)));
/// Keys of the rig file.
pub(crate) static RIG: LazyLock<Node> = LazyLock::new(|| grow(|path| path.strip_prefix("rig.")));

fn grow(inside: impl Fn(&'static str) -> Option<&'static str>) -> Node {
    let mut root = Node::default();
    for entry in ENTRIES {
        let Some(path) = inside(entry.path) else { continue };
        let mut node = &mut root;
        for word in path.split('.') {
            node = node.child_mut(word.trim_end_matches("[]"));
        }
        match entry.form {
            Form::Table | Form::Tables => node.table = Some(entry),
            _ => (node.value, node.usual) = (Some(entry), Usual::of(entry)),
        }
    }
    root
}

impl Node {
    fn child_mut(&mut self, key: &'static str) -> &mut Node {
        let index = self.children.iter().position(|child| child.key == key).unwrap_or_else(|| {
            self.children.push(Node { key, ..Node::default() });
            self.children.len() - 1
        });
        &mut self.children[index]
    }

    /// Whether this is a list of tables.
    pub(crate) fn is_list(&self) -> bool {
        self.table.is_some_and(|table| table.form == Form::Tables)
    }

    /// How its table is headed: `[section.mud]`, `[[section]]`.
    pub(crate) fn heading(&self) -> String {
        let Some(table) = self.table else { return "the file".to_owned() };
        let path = table.path.strip_prefix("rig.").unwrap_or(table.path).replace("[]", "");
        if self.is_list() { format!("[[{path}]]") } else { format!("[{path}]") }
    }
}
