package web

func reencode(data []byte) ([]byte, error) { return data, nil }
