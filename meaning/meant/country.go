package meant

import "strings"

// letters are the two letters of countries that people write in other ways.
var letters = map[string]string{
	"UK": "GB", "BRITAIN": "GB", "GREAT BRITAIN": "GB", "UNITED KINGDOM": "GB", "ENGLAND": "GB", "SCOTLAND": "GB", "WALES": "GB",
	"USA": "US", "AMERICA": "US", "UNITED STATES": "US", "CANADA": "CA", "AUSTRALIA": "AU", "NEW ZEALAND": "NZ",
	"SOUTH AFRICA": "ZA", "INDIA": "IN", "IRELAND": "IE",
	"GERMANY": "DE", "EAST GERMANY": "DD", "GDR": "DD", "DDR": "DD", "FRANCE": "FR", "SWITZERLAND": "CH", "AUSTRIA": "AT",
	"ITALY": "IT", "SWEDEN": "SE", "BELGIUM": "BE", "NETHERLANDS": "NL", "HOLLAND": "NL", "DENMARK": "DK", "NORWAY": "NO",
	"FINLAND": "FI", "SPAIN": "ES", "PORTUGAL": "PT", "CZECHOSLOVAKIA": "CS", "CZECHIA": "CZ", "POLAND": "PL", "HUNGARY": "HU",
	"ROMANIA": "RO", "BULGARIA": "BG", "YUGOSLAVIA": "YU", "JAPAN": "JP", "CHINA": "CN", "BRAZIL": "BR",
	"RUSSIA": "RU", "SOVIET UNION": "SU", "USSR": "SU", "KOREA": "KR", "TAIWAN": "TW", "SLOVAKIA": "SK", "SLOVENIA": "SI",
}

// CountryCode returns the two letters of a country as somebody wrote it: by its
// code or in English. What it does not know it returns as written, in capitals.
func CountryCode(written string) string {
	country := strings.ToUpper(strings.TrimSpace(written))
	if code, ok := letters[country]; ok {
		return code
	}
	return country
}
