package wording_test

import (
	"testing"

	"futtock/rates/money"
	"futtock/templates/wording"
)

func TestSumsInWords(t *testing.T) {
	for _, c := range []struct{ name, sum, currency, want string }{
		{"nothing", "0", "GBP", "nil pounds"},
		{"a penny", "0.01", "GBP", "one penny"},
		{"pence alone", "0.99", "GBP", "ninety-nine pence"},
		{"a pound and a penny", "1.01", "GBP", "one pound and one penny"},
		{"whole pounds", "20", "GBP", "twenty pounds"},
		{"a teen", "13.12", "GBP", "thirteen pounds and twelve pence"},
		{"a hundred", "100", "GBP", "one hundred pounds"},
		{"and within the hundreds", "342", "GBP", "three hundred and forty-two pounds"},
		{"and across an empty hundred", "1001", "GBP", "one thousand and one pounds"},
		{"no and where there is a hundred", "1100", "GBP", "one thousand one hundred pounds"},
		{"thousands and pence", "1234.05", "GBP", "one thousand two hundred and thirty-four pounds and five pence"},
		{"tens of thousands", "90017.40", "GBP", "ninety thousand and seventeen pounds and forty pence"},
		{"a million and one", "1000001", "GBP", "one million and one pounds"},
		{"a million and a thousand", "1001000", "GBP", "one million one thousand pounds"},
		{"every group", "2345678901.23", "GBP", "two billion three hundred and forty-five million six hundred and seventy-eight thousand nine hundred and one pounds and twenty-three pence"},
		{"the largest in words", "999999999999.99", "GBP", "nine hundred and ninety-nine billion nine hundred and ninety-nine million nine hundred and ninety-nine thousand nine hundred and ninety-nine pounds and ninety-nine pence"},
		{"beyond words", "1000000000000", "GBP", "£1,000,000,000,000.00"},
		{"a credit", "-15.50", "GBP", "minus fifteen pounds and fifty pence"},
		{"euro have no s", "2.02", "EUR", "two euro and two cent"},
		{"kroner have øre", "1000.50", "DKK", "one thousand Danish kroner and fifty øre"},
		{"one krone", "1.01", "NOK", "one Norwegian krone and one øre"},
		{"dollars of one country", "14164.60", "USD", "fourteen thousand one hundred and sixty-four US dollars and sixty cents"},
		{"a currency by its code", "1000.50", "PLN", "one thousand PLN and fifty hundredths"},
		{"one hundredth", "3.01", "PLN", "three PLN and one hundredth"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := wording.InWords(money.MustAmount(c.sum), c.currency); got != c.want {
				t.Errorf("%s %s is %q, want %q", c.currency, c.sum, got, c.want)
			}
		})
	}
}

func TestSumsInFigures(t *testing.T) {
	for _, c := range []struct{ sum, currency, want string }{
		{"1234567.5", "GBP", "£1,234,567.50"},
		{"-0.05", "EUR", "−€0.05"},
		{"999", "DKK", "DKK\u00a0999.00"},
		{"999", "USD", "USD\u00a0999.00"},
		{"999", "PLN", "PLN\u00a0999.00"},
	} {
		if got := wording.Sum(money.MustAmount(c.sum), c.currency); got != c.want {
			t.Errorf("%s %s is %q, want %q", c.currency, c.sum, got, c.want)
		}
	}
}

// What a heading says of a currency is read back as that currency.
func TestTheSignOfACurrencyIsItsOwn(t *testing.T) {
	for _, code := range []string{"GBP", "EUR", "USD", "CAD", "AUD", "NZD", "DKK", "NOK", "SEK", "CHF", "JPY", "PLN"} {
		if got, ok := wording.CurrencyOf(wording.Sign(code)); !ok || got != code {
			t.Errorf("%s is written %q and read as %q", code, wording.Sign(code), got)
		}
	}
}
