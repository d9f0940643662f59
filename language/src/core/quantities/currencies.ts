// The codes of the currencies in which a repair can be priced.

/**
 * The ISO 4217 codes of currencies in circulation, written from memory as the list stood in early 2026.
 * Left out are codes for funds, precious metals, testing, and currencies that have been replaced.
 */
export const currencies: readonly string[] = [
    'AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BHD BIF BMD BND BOB BRL BSD BTN',
    'BWP BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB',
    'EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR',
    'ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD',
    'MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR',
    'PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE',
    'SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU',
    'UZS VED VES VND VUV WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG',
].flatMap(line => line.split(' '));

/** Signs of money that people write, and the codes they most often mean. */
export const currencySigns: ReadonlyMap<string, readonly string[]> = new Map([
    ['€', ['EUR']],
    ['$', ['USD', 'CAD', 'AUD']],
    ['US$', ['USD']],
    ['£', ['GBP']],
    ['¥', ['JPY', 'CNY']],
    ['₹', ['INR']],
]);
