//! The sources as the house sees them: files, the names they use and where, test code left out.

use proc_macro2::{Span, TokenStream, TokenTree};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use syn::visit::{self, Visit};
use syn::{Attribute, Ident, ImplItem, Item, UseTree, Visibility};

/// All files below `src/`, or a few texts in their place.
pub struct House {
    pub files: Vec<File>,
}

/// One file.
pub struct File {
    /// Below `src/`: `engine/battery/mod.rs`.
    pub name: String,
    /// Its module: `["engine", "battery"]`; empty for the crate's root.
    pub module: Vec<String>,
    pub text: String,
    /// It holds only tests.
    pub test: bool,
    /// Paths written outside test code, from `crate` or from another crate on.
    pub names: Vec<Name>,
    /// Functions that others may call.
    pub functions: Vec<Function>,
    /// How often each word stands in code outside tests and imports.
    pub words: BTreeMap<String, usize>,
    /// How many functions of a name it defines, whoever may call them.
    pub defined: BTreeMap<String, usize>,
    /// Macros called outside test code, and `static mut`.
    pub marks: Vec<(String, usize)>,
}

/// A path that is written somewhere.
pub struct Name {
    pub path: Vec<String>,
    pub line: usize,
    /// `use path::*`.
    pub glob: bool,
}

/// A function with `pub`, `pub(super)` or `pub(crate)`.
pub struct Function {
    pub name: String,
    pub line: usize,
}

impl House {
    /// The files below a folder.
    pub fn read(src: &Path) -> House {
        let mut texts = Vec::new();
        collect(src, src, &mut texts);
        texts.sort();
        House::of(texts)
    }

    /// These files.
    pub fn of(texts: Vec<(String, String)>) -> House {
        let modules: BTreeSet<Vec<String>> = texts.iter().map(|(name, _)| module_of(name)).collect();
        let parsed: Vec<(String, String, syn::File)> = texts
            .into_iter()
            .map(|(name, text)| {
                let syntax = syn::parse_file(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
                (name, text, syntax)
            })
            .collect();
        let tests: BTreeSet<Vec<String>> = parsed.iter().flat_map(|(name, _, file)| test_modules(name, file)).collect();
        let files = parsed.into_iter().map(|(name, text, syntax)| {
            let module = module_of(&name);
            let test = (1..=module.len()).any(|n| tests.contains(&module[..n]));
            let mut reader = Reader::new(&modules, module.clone());
            if !test {
                reader.learn(&syntax.items);
                reader.visit_file(&syntax);
            }
            let Reader { names, functions, words, defined, marks, .. } = reader;
            File { name, module, text, test, names, functions, words, defined, marks }
        });
        House { files: files.collect() }
    }

    /// Files with code that is not only for tests.
    pub fn production(&self) -> impl Iterator<Item = &File> {
        self.files.iter().filter(|f| !f.test)
    }

    /// The file that a path from `crate` on leads to: that of its longest module.
    pub fn target(&self, path: &[String]) -> Option<&File> {
        let inside = path.split_first().filter(|(first, _)| *first == "crate")?.1;
        let file = |module: &[String]| self.files.iter().find(|f| f.module == module && f.name != "main.rs");
        (1..=inside.len()).rev().find_map(|n| file(&inside[..n]))
    }
}

impl File {
    /// The house it belongs to: `engine`, or `main` and `lib` for those two.
    pub fn house(&self) -> &str {
        self.name.split(['/', '.']).next().unwrap_or_default()
    }
}

fn collect(root: &Path, folder: &Path, texts: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(root, &path, texts);
        } else if path.extension().is_some_and(|e| e == "rs") {
            let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
            texts.push((name, fs::read_to_string(&path).unwrap()));
        }
    }
}

fn module_of(name: &str) -> Vec<String> {
    let stem = name.trim_end_matches(".rs");
    let stem = stem.strip_suffix("/mod").unwrap_or(stem);
    if matches!(stem, "lib" | "main") { Vec::new() } else { stem.split('/').map(String::from).collect() }
}

/// Modules of a file that exist for tests only.
fn test_modules(name: &str, file: &syn::File) -> Vec<Vec<String>> {
    let own = module_of(name);
    let tests = file.items.iter().filter_map(|item| match item {
        Item::Mod(m) if for_tests(&m.attrs) => Some(m.ident.to_string()),
        _ => None,
    });
    tests.map(|child| own.iter().cloned().chain([child]).collect()).collect()
}

/// `#[cfg(test)]` or `#[test]`.
fn for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|a| {
        let cfg = a.path().is_ident("cfg") && a.meta.require_list().is_ok_and(|l| words_of(&l.tokens) == ["test"]);
        cfg || a.path().is_ident("test")
    })
}

fn words_of(tokens: &TokenStream) -> Vec<String> {
    tokens.clone().into_iter().map(|t| t.to_string()).collect()
}

/// Reads one file.
struct Reader<'a> {
    modules: &'a BTreeSet<Vec<String>>,
    /// The module at hand: the file's own, or one within it.
    here: Vec<String>,
    /// Names brought in by `use`, with what they stand for.
    imported: BTreeMap<String, Vec<String>>,
    names: Vec<Name>,
    functions: Vec<Function>,
    words: BTreeMap<String, usize>,
    defined: BTreeMap<String, usize>,
    marks: Vec<(String, usize)>,
}

impl<'a> Reader<'a> {
    fn new(modules: &'a BTreeSet<Vec<String>>, here: Vec<String>) -> Self {
        Reader {
            modules,
            here,
            imported: BTreeMap::new(),
            names: Vec::new(),
            functions: Vec::new(),
            words: BTreeMap::new(),
            defined: BTreeMap::new(),
            marks: Vec::new(),
        }
    }

    /// Learn what the file imports before its paths are read.
    fn learn(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Use(u) if !for_tests(&u.attrs) => self.import(&u.tree, Vec::new(), false),
                Item::Mod(m) if !for_tests(&m.attrs) => {
                    self.here.push(m.ident.to_string());
                    m.content.iter().for_each(|(_, items)| self.learn(items));
                    self.here.pop();
                }
                _ => {}
            }
        }
    }

    /// Every path of a tree of imports, kept as a name when `note` is set, else as what it brings in.
    fn import(&mut self, tree: &UseTree, mut before: Vec<String>, note: bool) {
        let leaf = |reader: &mut Self, ident: &Ident, name: &Ident, glob: bool| {
            let own = if ident == "self" && !before.is_empty() { vec![] } else { vec![ident.to_string()] };
            let path: Vec<String> = before.iter().cloned().chain(own).collect();
            let Some(path) = reader.resolve(&path) else { return };
            if note {
                reader.names.push(Name { path, line: line(ident.span()), glob });
            } else if name != "self" {
                reader.imported.insert(name.to_string(), path);
            } else if let Some(last) = path.last().cloned() {
                reader.imported.insert(last, path);
            }
        };
        match tree {
            UseTree::Path(p) => {
                before.push(p.ident.to_string());
                self.import(&p.tree, before, note);
            }
            UseTree::Name(n) => leaf(self, &n.ident, &n.ident, false),
            UseTree::Rename(r) => {
                leaf(self, &r.ident, &r.rename, false);
                // Under its other name it can be used unseen.
                *self.words.entry(r.ident.to_string()).or_default() += usize::from(note);
            }
            UseTree::Glob(g) => {
                if let (Some(path), true) = (self.resolve(&before), note) {
                    self.names.push(Name { path, line: line(g.star_token.spans[0]), glob: true });
                }
            }
            UseTree::Group(g) => g.items.iter().for_each(|t| self.import(t, before.clone(), note)),
        }
    }

    /// A path as written, from `crate` or from another crate on; `None` for what is no path to a module.
    fn resolve(&self, path: &[String]) -> Option<Vec<String>> {
        let (first, rest) = path.split_first()?;
        let from_crate = |module: &[String], rest: &[String]| {
            Some(["crate".to_string()].iter().chain(module).chain(rest).cloned().collect())
        };
        match first.as_str() {
            "crate" => from_crate(&[], rest),
            "self" => from_crate(&self.here, rest),
            "super" => {
                let ups = path.iter().take_while(|s| *s == "super").count();
                from_crate(&self.here[..self.here.len().saturating_sub(ups)], &path[ups..])
            }
            "Self" => None,
            name => match self.imported.get(name) {
                Some(known) => Some(known.iter().chain(rest).cloned().collect()),
                None if self.is_child(name) => from_crate(&self.here, path),
                None if rest.is_empty() && !name.starts_with(char::is_lowercase) => None,
                None => Some(path.to_vec()),
            },
        }
    }

    fn is_child(&self, name: &str) -> bool {
        let child: Vec<String> = self.here.iter().cloned().chain([name.to_string()]).collect();
        self.modules.contains(&child)
    }

    /// A path in an expression, a type or a pattern; a single word is no path to a file.
    fn named(&mut self, path: &[String], span: Span) {
        if path.len() > 1
            && let Some(path) = self.resolve(path)
        {
            self.names.push(Name { path, line: line(span), glob: false });
        }
    }

    /// Words and paths among the tokens of a macro, which no parser reads.
    fn tokens(&mut self, tokens: TokenStream) {
        let all: Vec<TokenTree> = tokens.into_iter().collect();
        let colon = |n: usize| matches!(all.get(n), Some(TokenTree::Punct(p)) if p.as_char() == ':');
        let ident = |n: usize| match all.get(n) {
            Some(TokenTree::Ident(i)) => Some(i),
            _ => None,
        };
        let mut n = 0;
        while n < all.len() {
            match &all[n] {
                TokenTree::Group(group) => self.tokens(group.stream()),
                TokenTree::Ident(first) => {
                    let mut path = vec![first.to_string()];
                    self.word(first);
                    while let (true, true, Some(next)) = (colon(n + 1), colon(n + 2), ident(n + 3)) {
                        path.push(next.to_string());
                        self.word(next);
                        n += 3;
                    }
                    self.named(&path, first.span());
                }
                _ => {}
            }
            n += 1;
        }
    }

    fn word(&mut self, word: &Ident) {
        *self.words.entry(word.to_string()).or_default() += 1;
    }

    fn function(&mut self, visibility: &Visibility, signature: &syn::Signature) {
        if !matches!(visibility, Visibility::Inherited) {
            let (name, line) = (signature.ident.to_string(), line(signature.ident.span()));
            self.functions.push(Function { name, line });
        }
    }
}

impl<'ast> Visit<'ast> for Reader<'_> {
    fn visit_item(&mut self, item: &'ast Item) {
        let attributes: &[Attribute] = match item {
            Item::Fn(i) => &i.attrs,
            Item::Impl(i) => &i.attrs,
            Item::Mod(i) => &i.attrs,
            Item::Use(i) => &i.attrs,
            Item::Const(i) => &i.attrs,
            Item::Static(i) => &i.attrs,
            Item::Struct(i) => &i.attrs,
            Item::Enum(i) => &i.attrs,
            Item::Macro(i) => &i.attrs,
            _ => &[],
        };
        if !for_tests(attributes) {
            visit::visit_item(self, item);
        }
    }

    fn visit_impl_item(&mut self, item: &'ast ImplItem) {
        if !matches!(item, ImplItem::Fn(f) if for_tests(&f.attrs)) {
            visit::visit_impl_item(self, item);
        }
    }

    fn visit_item_mod(&mut self, module: &'ast syn::ItemMod) {
        self.here.push(module.ident.to_string());
        visit::visit_item_mod(self, module);
        self.here.pop();
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        self.import(&item.tree, Vec::new(), false);
        self.import(&item.tree, Vec::new(), true);
    }

    fn visit_item_fn(&mut self, f: &'ast syn::ItemFn) {
        self.function(&f.vis, &f.sig);
        visit::visit_item_fn(self, f);
    }

    fn visit_impl_item_fn(&mut self, f: &'ast syn::ImplItemFn) {
        self.function(&f.vis, &f.sig);
        visit::visit_impl_item_fn(self, f);
    }

    fn visit_signature(&mut self, signature: &'ast syn::Signature) {
        *self.defined.entry(signature.ident.to_string()).or_default() += 1;
        visit::visit_signature(self, signature);
    }

    /// `pub(super)` names no file.
    fn visit_visibility(&mut self, _: &'ast Visibility) {}

    /// A function can be named in a text: `#[serde(default = "one")]`.
    fn visit_attribute(&mut self, attribute: &'ast Attribute) {
        if attribute.path().is_ident("doc") {
            return;
        }
        let text = attribute.meta.require_list().map(|l| l.tokens.to_string()).unwrap_or_default();
        for word in text.split(|c: char| !c.is_alphanumeric() && c != '_').filter(|w| !w.is_empty()) {
            *self.words.entry(word.to_string()).or_default() += 1;
        }
    }

    fn visit_macro(&mut self, called: &'ast syn::Macro) {
        if let Some(last) = called.path.segments.last() {
            self.marks.push((format!("{}!", last.ident), line(last.ident.span())));
        }
        visit::visit_path(self, &called.path);
        self.tokens(called.tokens.clone());
    }

    fn visit_item_static(&mut self, item: &'ast syn::ItemStatic) {
        if matches!(item.mutability, syn::StaticMutability::Mut(_)) {
            self.marks.push(("static mut".into(), line(item.ident.span())));
        }
        visit::visit_item_static(self, item);
    }

    fn visit_item_macro(&mut self, item: &'ast syn::ItemMacro) {
        self.tokens(item.mac.tokens.clone());
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments: Vec<String> = path.segments.iter().map(|s| s.ident.to_string()).collect();
        if let Some(first) = path.segments.first() {
            self.named(&segments, first.ident.span());
        }
        visit::visit_path(self, path);
    }

    fn visit_ident(&mut self, ident: &'ast Ident) {
        self.word(ident);
    }
}

fn line(span: Span) -> usize {
    span.start().line
}
