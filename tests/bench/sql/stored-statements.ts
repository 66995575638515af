/** Rungs of the ladder that are a model's own, and its core, whoever's it is. */
export const rungsOfModels = ['core', 'all parts', 'model with service parts replaced', 'model with options', 'model'] as const;

export const temporary = `
  create temp table seen (slot text primary key, parts integer, core integer) without rowid;
  create temp table live (part integer primary key, slot text);
  create temp table met (model integer, slot text, names integer, belongs integer, primary key (model, slot)) without rowid;
  create temp table remaining (model integer primary key, plated integer);
  create temp table asked (model integer, slot text, part_group text, naming integer, parts integer, belongs integer, names integer,
    primary key (model, slot)) without rowid;
  create temp table rung (rung text primary key) without rowid;
  insert into rung values ${rungsOfModels.map((rung) => `('${rung}')`).join(', ')};`;

/** What a name of a rung asks of a slot of its model `a`; and whether a part that sits there in the role belongs. */
const demanded = `case r.rung when 'core' then a.naming and a.part_group = 'core' when 'all parts' then a.naming and a.part_group <> 'plate'
  when 'model with service parts replaced' then a.naming else 1 end`;
const byNames = `r.rung = 'model' and a.naming`;

export const statements = {
  before: ['seen', 'live', 'met', 'remaining', 'asked'].map((table) => `delete from ${table}`),
  marks: `select distinct any_of as anyOf from facts where feature = ? and kind = 'mark'`,
  /** A slot of which something was seen, after the parts that agree. */
  seen: `insert into seen select id, (select count(*) from live where slot = id), part_group = 'core' from slots where id = ?`,
  narrow: [
    // Of every model, how many of these parts may sit there: as the nearest part is listed in whose place they came.
    `insert into met
      with recursive older (slot, part, at, far) as (
        select slot, part, part, 0 from live
        union all select o.slot, o.part, p.supersedes, far + 1 from older o join parts p on p.n = o.at where p.supersedes is not null),
      seat (model, slot, part, role, far) as (
        select s.model, o.slot, o.part, s.role, min(o.far) from older o join sits s on s.part = o.at group by s.model, o.part)
      select model, slot, sum(role = 'names'), count(*) from seat group by model, slot`,
    // Models with some part that agrees in every slot of the core that makes their name.
    `insert into remaining
      select m.n, coalesce(k.plate_rule, 0) from models m join families f on f.id = m.family left join makers k on k.id = f.maker
      where not exists (
        select 1 from sits s cross join parts p on p.n = s.part cross join seen o on o.slot = p.slot and o.core
        where s.model = m.n and s.role <> 'service' and not exists (select 1 from met where model = m.n and slot = p.slot))`,
    `insert into asked
      select r.model, p.slot, g.part_group, max(s.role <> 'service'), o.parts, coalesce(t.belongs, 0), coalesce(t.names, 0)
      from remaining r cross join sits s on s.model = r.model join parts p on p.n = s.part join slots g on g.id = p.slot
        left join seen o on o.slot = p.slot left join met t on t.model = r.model and t.slot = p.slot
      where g.part_group <> 'plate' or r.plated group by r.model, p.slot`,
  ],
};

/** A part that may sit nowhere in the model, or not in the role that is asked for, keeps a name from standing: the first found is enough. */
const doubted = `exists (
  select 1 from asked a join parts p on p.slot = a.slot
  where a.model = r.model and a.parts is null and ${demanded} and not coalesce((
    with recursive older (at, far) as (
      select p.n, 0 union all select q.supersedes, far + 1 from older o join parts q on q.n = o.at where q.supersedes is not null)
    select iif(${byNames}, s.role = 'names', 1) from older o join sits s on s.model = a.model and s.part = o.at order by far limit 1), 0))`;

/** The names that are left, and which of them stand. */
export const standing = `
  with judged as (
    select r.model, r.rung, coalesce(min(a.parts is null or iif(${byNames}, a.names, a.belongs) > 0), 1) as possible,
      coalesce(max(a.part_group = 'core'), 0) and min(a.parts is null or iif(${byNames}, a.names, a.belongs) = a.parts) as settled
    from (select model, rung from remaining cross join rung) r left join asked a on a.model = r.model and ${demanded} group by r.model, r.rung)
  select r.model, r.rung, r.settled and not ${doubted} as stands from judged r where r.possible`;
