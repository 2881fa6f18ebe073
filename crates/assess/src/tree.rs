//! The roll-up tree of a plan: engine → section → part → position → characteristic.

use ringland_card::plan::{LeafId, Plan};

/// What a node of the tree is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NodeKind {
    /// The engine.
    Engine,
    /// A section of the strip-down.
    Section,
    /// A part.
    Part,
    /// A position.
    Position,
    /// A characteristic in a position.
    Leaf(LeafId),
}

impl NodeKind {
    /// The name as the command writes it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Engine => "engine",
            Self::Section => "section",
            Self::Part => "part",
            Self::Position => "position",
            Self::Leaf(_) => "characteristic",
        }
    }
}

/// A node of the tree.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// What it is.
    pub kind: NodeKind,
    /// Its way down from the engine, such as `camshaft/lobes/cyl1/lobe/intake`.
    pub path: String,
    /// Its weight among its siblings.
    pub weight: f64,
    /// The node above; none for the engine.
    pub parent: Option<usize>,
    /// The nodes below, in plan order.
    pub children: Vec<usize>,
    /// The cap rules on it, by number in the plan.
    pub caps: Vec<usize>,
}

/// The roll-up tree of a plan, parents before children. Made once for a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Tree {
    nodes: Vec<Node>,
    leaf_nodes: Vec<usize>,
    /// By leaf: the cap rules that look at it, by number in the plan.
    watched_by: Vec<Vec<usize>>,
}

impl Tree {
    /// The tree of a plan.
    pub fn of(plan: &Plan) -> Self {
        let mut tree = Self {
            nodes: Vec::new(),
            leaf_nodes: Vec::new(),
            watched_by: Vec::new(),
        };
        let engine = tree.add(NodeKind::Engine, "engine".to_owned(), 1.0, None);
        for section in &plan.sections {
            let s = tree.add(
                NodeKind::Section,
                section.id.to_string(),
                section.weight,
                Some(engine),
            );
            for part in &section.parts {
                let path = format!("{}/{}", section.id, part.id);
                let watchers: Vec<usize> = (0..plan.caps.len())
                    .filter(|rule| plan.caps[*rule].looks_in(section, part))
                    .collect();
                let p = tree.add(NodeKind::Part, path.clone(), part.weight, Some(s));
                for place in &part.places {
                    for position in &place.positions {
                        let path = format!("{path}/{}", position.id);
                        let at = tree.add(NodeKind::Position, path.clone(), place.weight, Some(p));
                        for look in &place.looks {
                            let leaf = LeafId(tree.leaf_nodes.len());
                            let path = format!("{path}/{}", look.id);
                            let node = tree.add(NodeKind::Leaf(leaf), path, look.weight, Some(at));
                            tree.leaf_nodes.push(node);
                            tree.watched_by.push(
                                watchers
                                    .iter()
                                    .copied()
                                    .filter(|rule| plan.caps[*rule].characteristic == look.id)
                                    .collect(),
                            );
                        }
                    }
                }
            }
        }
        for (rule, cap) in plan.caps.iter().enumerate() {
            if let Some(node) = tree.nodes.iter_mut().find(|node| node.path == cap.node) {
                node.caps.push(rule);
            }
        }
        tree
    }

    fn add(&mut self, kind: NodeKind, path: String, weight: f64, parent: Option<usize>) -> usize {
        let number = self.nodes.len();
        self.nodes.push(Node {
            kind,
            path,
            weight,
            parent,
            children: Vec::new(),
            caps: Vec::new(),
        });
        if let Some(parent) = parent {
            self.nodes[parent].children.push(number);
        }
        number
    }

    /// The nodes, parents before children, in plan order; the first is the engine.
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// The node of a leaf.
    pub fn node_of(&self, leaf: LeafId) -> usize {
        self.leaf_nodes[leaf.0]
    }

    /// How many leaves there are.
    pub fn leaf_count(&self) -> usize {
        self.leaf_nodes.len()
    }

    /// The cap rules that look at a leaf, by number in the plan.
    pub fn watched_by(&self, leaf: LeafId) -> &[usize] {
        &self.watched_by[leaf.0]
    }

    /// By leaf: its share in the engine's score when everything is rated, Π w/Σw on the way down.
    pub fn leaf_shares(&self) -> Vec<f64> {
        let mut shares = vec![0.0; self.nodes.len()];
        shares[0] = 1.0;
        for (number, node) in self.nodes.iter().enumerate() {
            let all: f64 = node
                .children
                .iter()
                .map(|child| self.nodes[*child].weight)
                .sum();
            for &child in &node.children {
                shares[child] = shares[number] * self.nodes[child].weight / all;
            }
        }
        self.leaf_nodes.iter().map(|node| shares[*node]).collect()
    }

    /// The node of that path.
    pub fn find(&self, path: &str) -> Option<usize> {
        self.nodes.iter().position(|node| node.path == path)
    }
}
