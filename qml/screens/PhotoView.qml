// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One photo as large as the screen has room, with what it shows.
//   source, caption, comparable (there is one to compare it with)
//   signals dismissed(), compareWanted()
FocusScope {
    id: root

    property url source
    property string caption: ""
    property bool comparable: false

    signal dismissed
    signal compareWanted

    anchors.fill: parent
    Keys.onEscapePressed: root.dismissed()

    Rectangle {
        anchors.fill: parent
        color: Theme.ground

        MouseArea {
            anchors.fill: parent
        }
    }

    Image {
        id: picture

        anchors { fill: parent; margins: Theme.margin; bottomMargin: Theme.touch + 2 * Theme.module }
        source: root.source
        asynchronous: true
        fillMode: Image.PreserveAspectFit
        sourceSize.width: root.width
    }

    Waiting {
        anchors.centerIn: picture
        visible: picture.status === Image.Loading
        text: qsTr("Fetching the photo")
    }

    Label {
        anchors.centerIn: picture
        visible: picture.status === Image.Error
        text: qsTr("This photo cannot be shown. Its hash stays on record; tell whoever looks after the kiosk.")
        paper: false
    }

    ActionButton {
        id: close

        anchors { left: parent.left; bottom: parent.bottom; leftMargin: Theme.margin; bottomMargin: Theme.module }
        symbol: Icon.Back
        text: qsTr("Back")
        onTapped: root.dismissed()
    }

    Label {
        anchors { left: close.right; leftMargin: Theme.module; right: root.comparable ? compare.left : parent.right; rightMargin: root.comparable ? Theme.module : Theme.margin; verticalCenter: close.verticalCenter }
        text: root.caption
        paper: false
        elide: Text.ElideRight
    }

    ActionButton {
        id: compare

        anchors { right: parent.right; bottom: parent.bottom; rightMargin: Theme.margin; bottomMargin: Theme.module }
        visible: root.comparable
        kind: ActionButton.Accent
        text: qsTr("Before and after")
        onTapped: root.compareWanted()
    }
}
