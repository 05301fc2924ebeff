package redis

import goredis "github.com/redis/go-redis/v9"

// A session is a hash: v its head record, r the head revision, x its expiry in
// milliseconds, b the hash of the body that made it. Beside it lie its log (a
// list), its requests (a hash, method and id → version byte, body hash, revision)
// and, after a deletion, a tombstone (version byte, until when). All four share
// the shard's hash tag. Expiry is judged by x and the caller's clock; the keys'
// own expiry only gives back room.

// keys: session, log, requests, tombstone
// args: now, head record, revision, body hash, expires
var createScript = goredis.NewScript(`
local gone = redis.call('GET', KEYS[4])
if gone and tonumber(string.sub(gone, 2)) > tonumber(ARGV[1]) then return {'gone'} end
local s = redis.call('HMGET', KEYS[1], 'x', 'b')
if s[1] and tonumber(s[1]) > tonumber(ARGV[1]) then
  if s[2] == ARGV[4] then return {'yours'} end
  return {'other'}
end
redis.call('DEL', KEYS[1], KEYS[2], KEYS[3], KEYS[4])
redis.call('HSET', KEYS[1], 'v', ARGV[2], 'r', ARGV[3], 'x', ARGV[5], 'b', ARGV[4])
redis.call('PEXPIREAT', KEYS[1], ARGV[5])
return {'made'}`)

// keys: session, log, requests; the channel is an argument, no key
// args: now, base, next, entry, request's name, its record, expires, most entries, channel
var appendScript = goredis.NewScript(`
local s = redis.call('HMGET', KEYS[1], 'r', 'x')
if not s[1] or tonumber(s[2]) <= tonumber(ARGV[1]) then return {'gone'} end
local function slide()
  redis.call('HSET', KEYS[1], 'x', ARGV[7])
  for i = 1, 3 do redis.call('PEXPIREAT', KEYS[i], ARGV[7]) end
end
local known = redis.call('HGET', KEYS[3], ARGV[5])
if known then
  if string.sub(known, 2, 33) ~= string.sub(ARGV[6], 2, 33) then return {'other'} end
  slide()
  return {'yours', known}
end
if s[1] ~= ARGV[2] then return {'stale', s[1]} end
if redis.call('LLEN', KEYS[2]) >= tonumber(ARGV[8]) then return {'full'} end
redis.call('RPUSH', KEYS[2], ARGV[4])
redis.call('HSET', KEYS[3], ARGV[5], ARGV[6])
redis.call('HSET', KEYS[1], 'r', ARGV[3])
slide()
redis.call('PUBLISH', ARGV[9], ARGV[3])
return {'appended'}`)

// keys: session, log, requests, tombstone
// args: now, tombstone until, channel
var deleteScript = goredis.NewScript(`
local x = redis.call('HGET', KEYS[1], 'x')
if not x or tonumber(x) <= tonumber(ARGV[1]) then
  local gone = redis.call('GET', KEYS[4])
  if gone and tonumber(string.sub(gone, 2)) > tonumber(ARGV[1]) then return {'deleted'} end
  return {'absent'}
end
redis.call('DEL', KEYS[1], KEYS[2], KEYS[3])
redis.call('SET', KEYS[4], '\1' .. ARGV[2], 'PXAT', ARGV[2])
redis.call('PUBLISH', ARGV[3], '')
return {'deleted'}`)

// keepScript writes a record unless one stands that has not expired; a record
// lies as its expiry in milliseconds, a colon, and its bytes.
// keys: record
// args: now, until, bytes
var keepScript = goredis.NewScript(`
local old = redis.call('GET', KEYS[1])
if old and tonumber(string.match(old, '^%d+')) > tonumber(ARGV[1]) then return {'stands', old} end
redis.call('SET', KEYS[1], ARGV[2] .. ':' .. ARGV[3], 'PXAT', ARGV[2])
return {'kept'}`)
