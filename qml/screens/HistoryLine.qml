// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One entry of a car's history: when, who, what.
//   required: roles of HistoryModel;  signal tapped() when it is about an operation
Touchable {
    id: root

    required property string timeWords
    required property string who
    required property string what
    required property string detail
    required property int operationId

    spoken: what
    available: operationId > 0
    implicitHeight: Math.max(operationId > 0 ? Theme.touch : 0, words.height + Theme.module)

    Label {
        id: when

        y: words.y
        width: Math.max(Theme.mm(17), implicitWidth + Theme.module)
        text: root.timeWords
        muted: true
    }

    Column {
        id: words

        anchors { left: when.right; right: parent.right; verticalCenter: parent.verticalCenter }

        Label {
            width: parent.width
            text: root.what
            wrapMode: Text.Wrap
            maximumLineCount: 3
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            text: root.detail.length > 0 ? root.who + " · " + root.detail : root.who
            role: Label.Detail
            muted: true
            wrapMode: Text.Wrap
            maximumLineCount: 3
            elide: Text.ElideRight
        }
    }

    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.line
        color: Theme.rule
    }
}
