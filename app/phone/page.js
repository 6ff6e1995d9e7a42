// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
"use strict"
// Sends each photo by itself as soon as it was taken, one after the other, and says how far it is.
// Without this script the form sends them all at once.
const form = document.querySelector("form")
const list = document.querySelector("ul")
const words = form.dataset
const waiting = []
let sent = 0
let busy = false

document.body.classList.add("scripted")

function show(item, state, text) {
    item.className = state
    item.querySelector("span").textContent = text
    const bar = item.querySelector("progress")
    if (bar && state !== "sending")
        bar.remove()
}

function add(file) {
    const item = document.createElement("li")
    const name = document.createElement("b")
    name.textContent = words.photo.replace("%1", ++sent)
    const bar = document.createElement("progress")
    bar.max = 1
    bar.value = 0
    item.append(name, document.createElement("span"), bar)
    list.prepend(item)
    show(item, "sending", words.waiting)
    if (file.size > Number(words.most))
        show(item, "refused", words.large)
    else
        waiting.push({ file, item })
}

function next() {
    if (busy || waiting.length === 0)
        return
    busy = true
    const { file, item } = waiting.shift()
    const bar = item.querySelector("progress")
    const ask = new XMLHttpRequest()
    const over = (state, text) => {
        busy = false
        show(item, state, text)
        next()
    }
    ask.upload.onprogress = event => {
        if (event.lengthComputable)
            bar.value = event.loaded / event.total
    }
    ask.upload.onload = () => show(item, "sending", words.keeping)
    ask.onload = () => over(ask.status === 200 ? "taken" : "refused", ask.responseText)
    ask.onerror = ask.ontimeout = () => over("refused", words.lost)
    ask.timeout = 180000
    ask.open("POST", location.pathname)
    ask.setRequestHeader("X-Ramplight", "one")
    const body = new FormData()
    body.append("photo", file, "photo")
    show(item, "sending", words.sending)
    ask.send(body)
}

for (const input of form.querySelectorAll("input"))
    input.addEventListener("change", () => {
        for (const file of input.files)
            add(file)
        input.value = ""
        next()
    })
