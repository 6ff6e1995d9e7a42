// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A person to choose: name, skills where the heading above does not say them all, and what they are
// on just now.
//   required: its index and the roles of PeopleModel;  chosen;  signal tapped()
Touchable {
    id: root

    required property int index
    required property int personId
    required property string name
    required property string skillSection
    required property list<string> skills
    required property string skillWords
    required property string onWords
    property bool chosen: false

    spoken: name
    implicitHeight: Theme.mm(24)

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.chosen ? Theme.accent : root.pressed ? Theme.groundLine : Theme.raised
        border.width: root.activeFocus ? Theme.thickLine : 0
        border.color: Theme.groundAccent
    }

    Column {
        anchors { left: parent.left; right: parent.right; margins: Theme.mm(5); verticalCenter: parent.verticalCenter }

        Label {
            width: parent.width
            text: root.name
            role: Label.Title
            color: root.chosen ? Theme.accentInk : Theme.groundInk
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            // Two lines have room: what somebody is on says more of them just now.
            visible: root.skills.length > 1 && root.onWords.length === 0
            text: root.skillWords
            role: Label.Detail
            color: root.chosen ? Theme.accentInk : Theme.groundInkMuted
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: root.onWords.length > 0
            text: root.onWords
            role: Label.Detail
            color: root.chosen ? Theme.accentInk : Theme.groundInk
            elide: Text.ElideRight
        }
    }
}
