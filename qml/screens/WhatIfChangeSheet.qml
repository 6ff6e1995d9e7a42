// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One of the things that would be different: out with it, or made real by whoever may.
//   view;  show(...) opens it for a row of the changes
DialogSheet {
    id: root

    required property WhatIfView view
    property int changeId: 0
    property string words: ""
    property bool keepable: false
    property bool wantsReason: false
    property string keepWords: ""

    function show(changeId: int, words: string, keepable: bool, wantsReason: bool, keepWords: string): void {
        root.changeId = changeId
        root.words = words
        root.keepable = keepable
        root.wantsReason = wantsReason
        root.keepWords = keepWords
        why.text = ""
        root.view.ask.dismiss()
        root.shown = true
    }

    title: words
    low: true
    sheetWidth: Math.min(Theme.mm(260), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        AskBanner {
            ask: root.view.ask
            anchors.margins: 0
        }

        Label {
            width: parent.width
            text: root.keepable ? qsTr("So far it is only looked at. To make it so changes the house, in the name of whoever signs.") : qsTr("It is only looked at.")
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.keepWords
            muted: true
            wrapMode: Text.WordWrap
        }

        NoteField {
            id: why

            width: parent.width
            visible: root.wantsReason
            label: qsTr("Why")
            lines: 2
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            text: qsTr("Take it out")
            onTapped: {
                root.shown = false
                root.view.remove(root.changeId)
            }
        },
        ActionButton {
            paper: true
            visible: root.keepable
            kind: ActionButton.Accent
            text: qsTr("Do it this way")
            available: !root.view.ask.busy && (!root.wantsReason || why.text.trim().length > 0)
            reason: root.wantsReason ? qsTr("say why") : ""
            onTapped: root.view.keep(root.changeId, why.text)
        }
    ]
}
