// Package pricing turns a design and a route into a bill: what does this work
// cost here, line by line, and how far may it move?
package pricing
