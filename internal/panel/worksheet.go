package panel

import "daybreak/internal/working"

func (in *Input) write(res *Result, sheet *working.Sheet) {}
