// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What an operation is, why it is there and how it stands, in words.
//   view;  why: the line under its title
Column {
    id: root

    required property OperationView view
    required property string why

    spacing: Theme.module

    Label {
        width: parent.width
        text: root.view.title
        role: Label.Title
        wrapMode: Text.WordWrap
    }

    Label {
        width: parent.width
        text: root.why
        muted: true
        wrapMode: Text.WordWrap
    }

    Label {
        width: parent.width
        visible: text.length > 0
        text: root.view.situationWords
        strong: true
        wrapMode: Text.WordWrap
    }

    Label {
        width: parent.width
        visible: root.view.startOffer.shown && !root.view.startOffer.can && root.view.startOffer.why.length > 0
        text: root.view.startOffer.why
        wrapMode: Text.WordWrap
    }

    Label {
        width: parent.width
        visible: text.length > 0
        text: root.view.overnightWords
        strong: true
        wrapMode: Text.WordWrap
    }
}
