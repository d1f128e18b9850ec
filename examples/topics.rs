use loomwright::*;
fn main(){ let c=catalogue::Catalogue::embedded().unwrap(); let r=plan::read(plan::default_example().text,&c); let d=engine::design(&r.plan,&c);
 for (t,w) in d.workings.iter() { println!("{:?} | {} | {} | {} = {}", t.subject, t.number, w.name, w.formula, w.result); }
 for f in &d.findings { println!("{:?}", f); } println!("{:?}", d.charger); println!("{:?}", d.cut_off.order);println!("{:?}", d.battery.criteria);println!("{:?}", d.runs[0].fuses);}
