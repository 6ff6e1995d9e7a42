// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// The head of a screen: what it is about in distance type, the rest beside it, who is signed in.
//   title (words alone, where there is no lead), lead ("R-208"), rest ("Pellew Anda 1.4 · hatch"), second (another line under rest), person
//   trailing: items for the right end instead of the person
Item {
    id: root

    property string title: ""
    property string lead: ""
    property string rest: ""
    property string second: ""
    property string person: ""
    property alias trailing: right.data

    implicitHeight: Math.max(Theme.mm(26), words.height + Theme.module)
    implicitWidth: Theme.mm(300)

    Label {
        id: leadLabel

        anchors.verticalCenter: parent.verticalCenter
        text: root.lead
        role: Label.Distance
        paper: false
    }

    Column {
        id: words

        anchors {
            left: leadLabel.right
            leftMargin: leadLabel.text.length > 0 ? Theme.mm(7) : 0
            right: right.left
            rightMargin: Theme.module
            verticalCenter: parent.verticalCenter
        }

        Label {
            width: parent.width
            visible: root.title.length > 0
            text: root.title
            role: Label.Title
            paper: false
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: root.rest.length > 0
            text: root.rest
            paper: false
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: root.second.length > 0
            text: root.second
            paper: false
            muted: true
            wrapMode: Text.WordWrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }
    }

    Row {
        id: right

        anchors { right: parent.right; verticalCenter: parent.verticalCenter }
        spacing: Theme.gap

        Icon {
            anchors.verticalCenter: parent.verticalCenter
            visible: root.person.length > 0
            symbol: Icon.Person
            colour: Theme.groundInk
        }

        Label {
            anchors.verticalCenter: parent.verticalCenter
            visible: root.person.length > 0
            text: root.person
            paper: false
        }
    }
}
