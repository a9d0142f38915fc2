"""A proof as text."""
from faulttree.core.proof.apart import splits
from faulttree.core.proof.ends import Worth
from faulttree.core.proof.walks import Mode
from faulttree.core.figures import show
from faulttree.core.units import UnitSystem

def proof_text(proof, m, judge):
    out = []
    out.append(f"{proof.tree.id} {proof.tree.version}: {m.faults} faults, {m.cars} cars, {m.quiet} without complaint")
    out.append(f"detected {m.detected:.1%} isolated to one {m.isolated:.1%} {m.isolated_to} faults isolated {m.isolated_faults} group size {m.group_size:.2f} wrong {m.wrong:.1%} undetected {m.undetected:.1%} unresolved {m.unresolved:.1%} minutes {m.mean_minutes:.1f}/{m.worst_minutes:.0f} returning {m.returning} false alarms {m.false_alarms}")
    for s in (None, *proof.bench.suspects):
        walks = proof.of(s)
        where = {}
        for w in walks:
            for e in w.ends:
                key = (e.end.conclusion or "STUCK " + e.end.trouble, e.worth.value if proof.shows(w) or s is None or e.worth.is_wrong else "quiet " + e.worth.value)
                where.setdefault(key, set()).add(f"{proof.row(w).supply[0]}{proof.row(w).form.words[:1]}{w.mode.value[0]}")
        out.append(f"{s.id if s else 'healthy'} ({s.weight if s else ''}; {s.part if s else ''})")
        for (c, worth), cars in where.items():
            mark = "!!" if worth in ("wrong", "false alarm") else "  "
            out.append(f"   {mark} {c}: {worth} [{' '.join(sorted(cars))}]")
    out.append("verdicts refuted by their own proof: " + ", ".join(sorted({f"{proof.row(w).suspect.id if proof.row(w).suspect else 'healthy'} at {'/'.join(e.end.refuted)}" for w, e in proof.refuted})))
    out.append("unreached: " + ", ".join(proof.unreached))
    out.append("idle: " + ", ".join(proof.idle))
    out.append("ungrouped: " + ", ".join(proof.ungrouped))
    for c in proof.closest:
        if c.margin.is_within_error:
            row = proof.bench.rows[c.row]
            out.append(f"edge {c.margin.edge} of {c.step_id}: {c.margin.sigmas:.2f} standard uncertainties, {row.suspect.id if row.suspect else 'healthy'} {row.form.words} {row.supply}: reads {c.passed.span.value.value:.4g}")
    for split in splits(proof.bench, judge):
        out.append(f"group {split.group}: {split.one.id} and {split.other.id} told apart by {', '.join(split.steps)}")
    return "\n".join(out)

def walks_text(proof, name):
    out = []
    seen = {}
    for w in proof.walked:
        row = proof.row(w)
        if (row.suspect.id if row.suspect else "healthy") != name:
            continue
        for e in w.ends:
            key = tuple((p.step_id, p.way) for p in e.end.path) + (e.end.conclusion, e.worth)
            seen.setdefault(key, []).append((w, e))
    for key, found in seen.items():
        w, e = found[0]
        out.append(f"== {name}: " + "; ".join(sorted({f"{proof.row(x).supply} {proof.row(x).form.words} {x.mode.value}" for x, _ in found})))
        for p in e.end.path:
            step = proof.tree.steps[p.step_id]
            value = ""
            if p.span is not None:
                v = p.span.value
                value = f"{show(v.value, step.quantity, UnitSystem.METRIC)} ± {v.radius:.3g}"
            edges = " / ".join(f"{x.value:.4g}" for x in p.judged.edges) if p.judged else ""
            healthy = " (healthy)" if p.row != w.row else ""
            out.append(f"   {p.step_id}{healthy}: {value}  [{edges}] -> {p.way} -> {p.target or 'NOWHERE'}")
        out.append(f"   => {e.end.conclusion or 'STUCK: ' + e.end.trouble}: {e.worth.value} group size {e.group_size} {e.end.minutes:.0f} min")
    return "\n".join(out)
