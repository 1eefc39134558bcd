-- Back to the records of a copy, made by: create table unit_before as table unit. No worker runs meanwhile.
begin;
truncate unit;
insert into unit table unit_before;
delete from event where seq > coalesce(
  (select (kept::json #>> '{record,seq}')::bigint from unit where unit.unit = event.unit), 0);
delete from bucket where start >= coalesce(
  (select (kept::json #>> '{open,0,start}')::bigint from unit where unit.unit = bucket.unit), 0);
commit;
