// Package job is the wing of the words of the trade.
//
// trade has a job as types: kit, sizes, readings, relations, the part to be made,
// joints, work, surveys. keys describes every key that the file of a job may have;
// the reader, the help, the handbook and the schema are made from it. record has
// the words of the shop's record: revisions, spares, photographs, kit, devices.
// Nothing here works anything out. The wing has no code of its own.
package job
