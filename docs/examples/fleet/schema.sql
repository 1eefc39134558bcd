-- Inputs that wait to be taken. The key refuses a second publish of one that still waits; of one already taken, the
-- unit's record does.
create table inbox (
  place bigint generated always as identity,
  part int not null,
  unit text not null,
  seq bigint not null,
  payload text not null,
  primary key (unit, seq)
);
create index inbox_part on inbox (part, place);

-- What is kept of each unit. Rows are rewritten all the time: room in each page keeps the index out of it.
create table unit (unit text primary key, kept text not null) with (fillfactor = 50);

-- Events, each once.
create table event (unit text not null, seq bigint not null, n int not null, id text primary key, body text not null);

-- Full buckets of the roll-ups.
create table bucket (unit text not null, start bigint not null, body text not null, primary key (unit, start));
