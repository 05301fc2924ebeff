// Package tree is the conversation's questions as checked data.
//
// It answers: which questions are there, in what order, when does each apply,
// what does an answer say about the household, and what do we take when nobody
// knows? Structure lies in house/questions.yaml; what people read lies apart,
// in house/words/<locale>.yaml, under the same ids.
//
// Read [Load], then [Question]. Loading checks everything the data promises: a
// leaf and type behind every answer, conditions that compile and branches that
// can be reached (each shown by a household for which it is taken), a way out
// for "I don't know" on every question, gates and blocks kept by the scripted
// order, and every text in every locale offered. A broken file is a fault with
// file, line and reason.
//
// [Tree.Draw] fills a household from numbers between 0 and 1, by the stated
// distributions and by what is narrowed; [Tree.Central] fills it with the
// middle of them and lists what was assumed. The room keeps no answers (package
// intake does), judges no cautions and knows no prices.
package tree
